"""Step 3: what suppliers offer, the sheets it was loaded from, and what stood there before."""

from __future__ import annotations

from sqlite_utils import Database

from catalogue.migrations.steps import STEPS

# What an offer says, apart from where that comes from; an earlier offer keeps the same columns.
_OFFER = """
            supplier TEXT NOT NULL COLLATE NOCASE CHECK (supplier <> '' AND supplier = trim(supplier)),
            code TEXT NOT NULL COLLATE NOCASE CHECK (code <> '' AND code = trim(code)),
            part_number TEXT NOT NULL COLLATE NOCASE {part},
            description TEXT NOT NULL DEFAULT '',
            maker TEXT,
            maker_code TEXT COLLATE NOCASE,
            price TEXT CHECK (price NOT GLOB '*[^0-9.]*' AND price GLOB '*[0-9]*'), -- exact decimal
            price_text TEXT, -- as the sheet has it
            currency TEXT CHECK (currency GLOB '[A-Z][A-Z][A-Z]'), -- ISO 4217
            price_per INTEGER CHECK (price_per >= 1), -- the price is for so many pieces
            pack_size INTEGER CHECK (pack_size >= 1),
            minimum INTEGER CHECK (minimum >= 1), -- least order, pieces
            lead_time_days INTEGER CHECK (lead_time_days >= 0),
            stock INTEGER CHECK (stock >= 0), -- of the supplier
            listed INTEGER NOT NULL CHECK (listed IN (0, 1)), -- 0: gone from a sheet of the whole range
            row_digest INTEGER, -- of the row in the sheet; NULL where it is not there any more
            load INTEGER NOT NULL REFERENCES load (load),
            sheet TEXT NOT NULL,
            row INTEGER NOT NULL,"""


@STEPS(name="offers_and_loads")
def offers_and_loads(db: Database) -> None:
    """Offers with the row each comes from, loads, rejected rows, and earlier values for taking a load back.

    Versions of an offer or part are a chain: the one that holds stands in its table, those before it in
    ``earlier_*`` with the load that replaced them. Taking a load back takes its link out of each chain.
    """
    db.executescript(
        f"""
        PRAGMA user_version = 3;

        CREATE TABLE load (
            load INTEGER PRIMARY KEY,
            supplier TEXT COLLATE NOCASE CHECK (supplier <> ''), -- NULL: a sheet of the workshop's own parts
            file TEXT NOT NULL CHECK (file <> ''),
            file_sha256 TEXT NOT NULL,
            loaded_at TEXT NOT NULL, -- UTC, ISO 8601
            undone_at TEXT,
            covers TEXT NOT NULL CHECK (covers IN ('whole_range', 'some')),
            mapping TEXT NOT NULL, -- as the mapping file had it
            context TEXT NOT NULL, -- digest of all that rows were read by
            version TEXT NOT NULL, -- of borebook
            counts TEXT NOT NULL CHECK (json_valid(counts))
        ) STRICT;
        CREATE INDEX load_by_supplier ON load (supplier, load);

        CREATE TABLE load_table (
            load INTEGER NOT NULL REFERENCES load (load),
            sheet TEXT NOT NULL,
            header_row INTEGER NOT NULL,
            header TEXT NOT NULL CHECK (json_valid(header)),
            -- digests and row numbers of the rows that were taken, 8 bytes each, little endian, zlib
            digests BLOB NOT NULL,
            numbers BLOB NOT NULL,
            PRIMARY KEY (load, sheet)
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE load_rejection (
            load INTEGER NOT NULL REFERENCES load (load),
            sheet TEXT NOT NULL,
            row INTEGER NOT NULL,
            cells TEXT NOT NULL CHECK (json_valid(cells)),
            reasons TEXT NOT NULL CHECK (json_valid(reasons)),
            PRIMARY KEY (load, sheet, row)
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE offer (
            offer INTEGER PRIMARY KEY,{_OFFER.format(part="REFERENCES part (part_number)")}
            unit_price REAL AS (CAST(price AS REAL) / price_per) VIRTUAL,
            CHECK ((price IS NULL) = (currency IS NULL) AND (price IS NULL) = (price_per IS NULL)),
            UNIQUE (supplier, code)
        ) STRICT;
        CREATE INDEX offer_by_part ON offer (part_number);
        CREATE INDEX offer_by_maker_code ON offer (maker_code) WHERE maker_code IS NOT NULL;
        CREATE VIRTUAL TABLE offer_words USING fts5 (
            code, maker_code, description,
            content = 'offer', content_rowid = 'offer', tokenize = 'unicode61 remove_diacritics 2'
        );

        CREATE TABLE earlier_offer ({_OFFER.format(part="")}
            until_load INTEGER NOT NULL REFERENCES load (load),
            PRIMARY KEY (supplier, code, until_load)
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX earlier_offer_by_until ON earlier_offer (until_load);
        CREATE INDEX earlier_offer_by_load ON earlier_offer (load);

        -- typed_key: kind, sizes, material and hardness by which two articles are one; '' where one is
        -- missing, NULL where it was not worked out yet. load, sheet, row: where a loaded part comes from.
        ALTER TABLE part ADD COLUMN typed_key TEXT;
        ALTER TABLE part ADD COLUMN load INTEGER REFERENCES load (load);
        ALTER TABLE part ADD COLUMN sheet TEXT;
        ALTER TABLE part ADD COLUMN row INTEGER;
        CREATE INDEX part_by_typed_key ON part (typed_key) WHERE typed_key <> '';

        CREATE TABLE earlier_part (
            part_number TEXT NOT NULL COLLATE NOCASE,
            texts TEXT NOT NULL CHECK (json_valid(texts)),
            source TEXT NOT NULL,
            load INTEGER REFERENCES load (load),
            sheet TEXT,
            row INTEGER,
            until_load INTEGER NOT NULL REFERENCES load (load),
            PRIMARY KEY (part_number, until_load)
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX earlier_part_by_until ON earlier_part (until_load);
        CREATE INDEX earlier_part_by_load ON earlier_part (load);
        """
    )
