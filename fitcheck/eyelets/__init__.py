"""Eyelets: do pin, spacers, bush or bearing and bolt go together, and does the eye turn without knock?"""
