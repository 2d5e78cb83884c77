"""Currencies by their ISO 4217 codes, and the signs that stand for one or for several of them.

The codes are those in use (ISO 4217, list one, from memory: a code that is missing is told as unknown and can
be added here). A sign that several countries use names no currency by itself.
"""

from __future__ import annotations

_ISO_4217 = """
AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD
CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF
GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK
LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD
OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN
SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF XPF
YER ZAR ZMW
"""
CODES = frozenset(_ISO_4217.split())

# Signs and words in small letters; "" where several currencies are written so. Common practice, no source.
SIGNS = {
    "€": "EUR",
    "euro": "EUR",
    "euros": "EUR",
    "£": "GBP",
    "us$": "USD",
    "a$": "AUD",
    "c$": "CAD",
    "nz$": "NZD",
    "hk$": "HKD",
    "sfr": "CHF",
    "sfr.": "CHF",
    "fr.": "CHF",
    "zł": "PLN",
    "kč": "CZK",
    "₹": "INR",
    "₩": "KRW",
    "$": "",
    "kr": "",
    "kr.": "",
    "¥": "",
}
SEVERAL = {
    "$": ("USD", "CAD", "AUD", "NZD"),
    "kr": ("SEK", "NOK", "DKK", "ISK"),
    "kr.": ("DKK", "SEK", "NOK", "ISK"),
    "¥": ("JPY", "CNY"),
}


def currency_named(word: str) -> str | None:
    """The code that a sign, word or code names; "" where it may be several; None where it is no currency.

    >>> currency_named("€"), currency_named("chf"), currency_named("kr"), currency_named("pcs")
    ('EUR', 'CHF', '', None)
    """
    plain = word.strip()
    if plain.upper() in CODES and len(plain) == 3:
        return plain.upper()
    return SIGNS.get(plain.lower())


def may_be(word: str) -> tuple[str, ...]:
    """The currencies that an ambiguous sign may be; () for any other word."""
    return SEVERAL.get(word.strip().lower(), ())
