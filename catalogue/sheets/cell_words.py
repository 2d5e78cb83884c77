"""Words that stand in cells of prices, stock and lead times instead of numbers, or beside them.

Small letters, in English, German, French, Spanish, Italian and Dutch. Common practice, no source.
"""

from __future__ import annotations


def _words(*lines: str) -> frozenset[str]:
    return frozenset(word.strip() for line in lines for word in line.split(";"))


# There is no value.
NOTHING = _words(
    ";-;--;---;–;—;.;/;?;n/a;na;n.a.;n. a.;nan;null;none;k.a.;k. a.;keine angabe;entfällt",
    "n.v.t.;n.d.;nd;#n/a;tba;tbd",
)
# The price is told when one asks.
ON_REQUEST = _words(
    "poa;p.o.a.;on request;price on request;on application;price on application;ask;call",
    "auf anfrage;a.a.;a. a.;preis auf anfrage;anfrage;tagespreis",
    "sur demande;prix sur demande;nous consulter;a consultar;consultar;bajo demanda;su richiesta",
    "op aanvraag;prijs op aanvraag",
)
IN_STOCK = _words(
    "in stock;yes;available;ex stock;auf lager;ab lager;lagernd;verfügbar;lieferbar;ja;en stock;oui",
    "disponible;disponibile;sì;si;sí;op voorraad;beschikbaar",
)
SOLD_OUT = _words(
    "out of stock;sold out;no;none left;nicht auf lager;nicht lagernd;nicht verfügbar;ausverkauft;nein",
    "vergriffen;rupture;en rupture;rupture de stock;non;épuisé;agotado;sin stock;esaurito;non disponibile",
    "uitverkocht;niet op voorraad;nee",
)
AT_ONCE = IN_STOCK | _words(
    "immediately;at once;same day;sofort;sofort lieferbar;immédiat;inmediato;immediato;pronta;direct"
)
# Patterns: pieces after a number, at least before a number, about before a time, units of time.
PIECES = (
    r"(?:pcs?|pieces?|pce|ea|each|units?|stk|stck|st|stück|stueck|teile|pièces?|unités?|uds?|unidades"
    r"|piezas?|pz|pezzi|stuks?)\.?"
)
AT_LEAST = r"(?:>=?|≥|(?:over|more than|über|mehr als|min\.?|ab|plus de|más de|oltre)\b)"
ABOUT = r"(?:ca\.?|circa|approx\.?|about|env\.?|environ|~|≈|max\.?|up to|within|bis)"
TO = r"(?:-|–|/|bis|to|à|a|tot)"
TIMES = {
    "days": r"d|days?|calendar days|t|tage?n?|kalendertage?|jours?|j|d[ií]as?|giorn[io]|gg|dag|dagen",
    "working days": r"wd|working days|business days|at|arbeitstage?n?|werktage?n?|jours ouvr[eé]s|jo"
    r"|d[ií]as h[aá]biles|giorni lavorativi|werkdag|werkdagen",
    "weeks": r"w|wks?|weeks?|wo|woche|wochen|semaines?|sem|semanas?|settiman[ae]|sett|weken",
    "months": r"months?|mths?|mon|monate?n?|mois|mes|meses|mes[ei]|maand|maanden",
}
