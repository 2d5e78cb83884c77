"""Retaining rings in their grooves: does the ring enter, grip and reach the floor, and what does it hold?"""
