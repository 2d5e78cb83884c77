"""Step 2: every field of every kind of part, place and unit."""

from __future__ import annotations

from sqlite_utils import Database

from catalogue.migrations.steps import STEPS


@STEPS(name="every_field_of_every_kind")
def every_field_of_every_kind(db: Database) -> None:
    """Every field of every kind of part, place and unit, each text as it was given.

    Lengths stay in ``part_dimension`` and ``place_dimension``, which now hold nothing else; all other
    fields are rows of ``part_value``, ``place_value`` and ``unit_value``, with the number they say beside
    the text where they say one. Columns of ``part`` that repeat a field hold what was read from it, for
    search. Places and their parts have an order, and a unit has shafts and parts that its file describes.
    Tables are made anew under their names and the old ones emptied into them: SQLite changes no CHECK.
    """
    for name in _MADE_ANEW:
        db.execute(f"ALTER TABLE {name} RENAME TO {name}_1")
    db.executescript(
        """
        PRAGMA user_version = 2;

        CREATE TABLE part_dimension (
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number) ON DELETE CASCADE,
            dimension TEXT NOT NULL CHECK (dimension <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            nominal_mm REAL NOT NULL,
            lower_mm REAL NOT NULL CHECK (lower_mm >= 0),
            upper_mm REAL NOT NULL CHECK (upper_mm <= 3000),
            origin TEXT NOT NULL CHECK (origin IN ('drawn', 'measured', 'standard')),
            standard_uncertainty_mm REAL CHECK (standard_uncertainty_mm >= 0),
            tolerance_class TEXT,
            PRIMARY KEY (part_number, dimension),
            CHECK (lower_mm <= upper_mm),
            CHECK ((origin = 'measured') = (standard_uncertainty_mm IS NOT NULL))
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE part_value (
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number) ON DELETE CASCADE,
            field TEXT NOT NULL CHECK (field <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            low REAL,
            high REAL,
            in_unit TEXT,
            PRIMARY KEY (part_number, field),
            CHECK (low <= high),
            CHECK ((low IS NULL) = (high IS NULL) AND (low IS NULL) = (in_unit IS NULL))
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE unit (
            unit TEXT NOT NULL PRIMARY KEY COLLATE NOCASE
                CHECK (unit <> '' AND unit = trim(unit) AND instr(unit, '/') = 0),
            kind TEXT NOT NULL CHECK (kind IN (
                'coil_shock', 'air_shock', 'fork_leg', 'fork_damper', 'damper')),
            description TEXT NOT NULL DEFAULT '',
            maker TEXT,
            notes TEXT,
            source TEXT, -- who described it, from what
            loaded_from TEXT NOT NULL CHECK (loaded_from <> '')
        ) STRICT;

        CREATE TABLE unit_value (
            unit TEXT NOT NULL COLLATE NOCASE REFERENCES unit (unit) ON DELETE CASCADE,
            field TEXT NOT NULL CHECK (field <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            low REAL,
            high REAL,
            in_unit TEXT,
            PRIMARY KEY (unit, field),
            CHECK (low <= high),
            CHECK ((low IS NULL) = (high IS NULL) AND (low IS NULL) = (in_unit IS NULL))
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE unit_shaft (
            unit TEXT NOT NULL COLLATE NOCASE REFERENCES unit (unit) ON DELETE CASCADE,
            label TEXT NOT NULL COLLATE NOCASE CHECK (label <> ''),
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number),
            PRIMARY KEY (unit, label)
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE unit_part (
            unit TEXT NOT NULL COLLATE NOCASE REFERENCES unit (unit) ON DELETE CASCADE,
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number),
            PRIMARY KEY (unit, part_number)
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE place (
            unit TEXT NOT NULL COLLATE NOCASE REFERENCES unit (unit) ON DELETE CASCADE,
            place TEXT NOT NULL COLLATE NOCASE
                CHECK (place <> '' AND place = trim(place) AND instr(place, '/') = 0),
            position INTEGER NOT NULL CHECK (position >= 1), -- in the order of the work
            kind TEXT NOT NULL CHECK (kind IN (
                'rod_gland', 'piston_gland', 'face_gland', 'wiper_seat', 'guide_ring_groove',
                'bushing_seat', 'eyelet', 'retaining_ring_groove', 'threaded_port', 'valve_seat',
                'gas_chamber')),
            description TEXT NOT NULL DEFAULT '',
            notes TEXT,
            PRIMARY KEY (unit, place)
        ) STRICT;

        CREATE TABLE place_fluid (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            fluid TEXT NOT NULL CHECK (fluid <> ''),
            position INTEGER NOT NULL CHECK (position >= 1),
            PRIMARY KEY (unit, place, fluid),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE place_dimension (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            dimension TEXT NOT NULL CHECK (dimension <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            nominal_mm REAL NOT NULL,
            lower_mm REAL NOT NULL CHECK (lower_mm >= 0),
            upper_mm REAL NOT NULL CHECK (upper_mm <= 3000),
            origin TEXT NOT NULL CHECK (origin IN ('drawn', 'measured', 'standard')),
            standard_uncertainty_mm REAL CHECK (standard_uncertainty_mm >= 0),
            tolerance_class TEXT,
            PRIMARY KEY (unit, place, dimension),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE,
            CHECK (lower_mm <= upper_mm),
            CHECK ((origin = 'measured') = (standard_uncertainty_mm IS NOT NULL))
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE place_value (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            field TEXT NOT NULL CHECK (field <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            low REAL,
            high REAL,
            in_unit TEXT,
            PRIMARY KEY (unit, place, field),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE,
            CHECK (low <= high),
            CHECK ((low IS NULL) = (high IS NULL) AND (low IS NULL) = (in_unit IS NULL))
        ) STRICT, WITHOUT ROWID;

        CREATE TABLE rebuild_list (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number),
            position INTEGER NOT NULL CHECK (position >= 1),
            quantity INTEGER NOT NULL CHECK (quantity BETWEEN 1 AND 1000),
            renew TEXT NOT NULL CHECK (renew IN ('always', 'inspect')),
            PRIMARY KEY (unit, place, part_number),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;

        INSERT INTO part_dimension
            SELECT part_number, dimension, text, nominal_mm, lower_mm, upper_mm, origin,
                standard_uncertainty_mm, tolerance_class
            FROM part_dimension_1 WHERE quantity = 'length';
        INSERT INTO part_value (part_number, field, text)
            SELECT part_number, dimension, text FROM part_dimension_1 WHERE quantity <> 'length'
            UNION ALL SELECT part_number, 'size', size_code FROM part WHERE size_code <> ''
            UNION ALL SELECT part_number, 'material', material FROM part WHERE material <> '';
        INSERT INTO part_value
            SELECT part_number, 'hardness_shore_a', printf('%g', hardness_shore_a), hardness_shore_a,
                hardness_shore_a, ''
            FROM part WHERE hardness_shore_a IS NOT NULL;

        INSERT INTO unit
            SELECT unit, kind, description, maker, notes, NULL, source FROM unit_1;
        INSERT INTO unit_value
            SELECT unit, 'temperature', temperature, temperature_low_deg_c, temperature_high_deg_c, 'degC'
            FROM unit_1 WHERE temperature <> '';
        INSERT INTO unit_value (unit, field, text)
            SELECT unit, 'fluid', fluid FROM unit_1 WHERE fluid <> '';

        INSERT INTO place
            SELECT unit, place, row_number() OVER (PARTITION BY unit ORDER BY place), kind, description, notes
            FROM place_1;
        INSERT INTO place_fluid SELECT unit, place, fluid, position FROM place_fluid_1;
        INSERT INTO place_dimension
            SELECT unit, place, dimension, text, nominal_mm, lower_mm, upper_mm, origin,
                standard_uncertainty_mm, tolerance_class
            FROM place_dimension_1 WHERE quantity = 'length';
        INSERT INTO place_value (unit, place, field, text)
            SELECT unit, place, dimension, text FROM place_dimension_1 WHERE quantity <> 'length'
            UNION ALL SELECT unit, place, 'motion', motion FROM place_1 WHERE motion <> ''
            UNION ALL SELECT unit, place, 'medium', medium FROM place_1 WHERE medium <> ''
            UNION ALL SELECT unit, place, 'pressure_from', pressure_from FROM place_1
                WHERE pressure_from <> ''
            UNION ALL SELECT unit, place, 'metal', metal FROM place_1 WHERE metal <> ''
            UNION ALL SELECT unit, place, 'fluid', group_concat(fluid, '; ')
                FROM (SELECT * FROM place_fluid_1 ORDER BY unit, place, position) GROUP BY unit, place;
        INSERT INTO place_value
            SELECT unit, place, 'pressure', pressure, gauge_pressure_mpa, gauge_pressure_mpa, 'MPa'
            FROM place_1 WHERE pressure <> ''
            UNION ALL SELECT unit, place, 'back_up_rings', CAST(back_up_rings AS TEXT), back_up_rings,
                back_up_rings, '' FROM place_1 WHERE back_up_rings IS NOT NULL;
        INSERT INTO rebuild_list
            SELECT unit, place, part_number,
                row_number() OVER (PARTITION BY unit, place ORDER BY part_number), quantity, renew
            FROM rebuild_list_1;
        """
    )
    for name in reversed(_MADE_ANEW):
        db.execute(f"DROP TABLE {name}_1")
    db.executescript(
        """
        CREATE INDEX part_dimension_by_limits ON part_dimension (dimension, lower_mm, upper_mm);
        CREATE INDEX part_value_by_limits ON part_value (field, low, high);
        CREATE INDEX place_by_kind ON place (kind, unit, place);
        CREATE INDEX place_fluid_by_fluid ON place_fluid (fluid);
        CREATE INDEX place_dimension_by_limits ON place_dimension (dimension, lower_mm, upper_mm);
        CREATE INDEX place_value_by_limits ON place_value (field, low, high);
        CREATE INDEX rebuild_list_by_part ON rebuild_list (part_number);
        CREATE INDEX unit_shaft_by_part ON unit_shaft (part_number);
        CREATE INDEX unit_part_by_part ON unit_part (part_number);
        """
    )


# Tables of the first step that the second makes anew, parents before their children.
_MADE_ANEW = ("part_dimension", "unit", "place", "place_fluid", "place_dimension", "rebuild_list")
