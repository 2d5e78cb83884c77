"""Step 1: parts and units with their places, dimensions and rebuild lists."""

from __future__ import annotations

from sqlite_utils import Database

from catalogue.migrations.steps import STEPS


@STEPS(name="parts_units_places")
def parts_units_places(db: Database) -> None:
    """Parts and units with their places, dimensions and rebuild lists."""
    db.executescript(
        """
        PRAGMA application_id = 1112494658;
        PRAGMA user_version = 1;

        CREATE TABLE part (
            part_number TEXT NOT NULL PRIMARY KEY COLLATE NOCASE
                CHECK (part_number <> '' AND part_number = trim(part_number)),
            kind TEXT NOT NULL CHECK (kind IN (
                'o_ring', 'four_lobed_ring', 'back_up_ring', 'lip_seal', 'wiper', 'guide_ring',
                'plain_bushing', 'retaining_ring', 'eyelet_hardware', 'valve_core', 'valve_fitting',
                'screw', 'bearing', 'shaft', 'piston', 'fluid')),
            description TEXT NOT NULL DEFAULT '',
            maker TEXT,
            material TEXT,
            hardness_shore_a REAL CHECK (hardness_shore_a BETWEEN 20 AND 98),
            size_code TEXT,
            size_grade TEXT CHECK (size_grade IN (
                'published_twice', 'published_once', 'standard', 'derived', 'given', 'disputed',
                'from_memory', 'no_tolerance')),
            size_source TEXT,
            superseded_by TEXT COLLATE NOCASE
                REFERENCES part (part_number) DEFERRABLE INITIALLY DEFERRED
                CHECK (superseded_by <> part_number),
            notes TEXT,
            source TEXT NOT NULL CHECK (source <> '')
        ) STRICT;
        CREATE INDEX part_by_kind ON part (kind, part_number);
        CREATE INDEX part_by_size_code ON part (size_code);
        CREATE INDEX part_by_superseded_by ON part (superseded_by);

        CREATE TABLE part_dimension (
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number) ON DELETE CASCADE,
            dimension TEXT NOT NULL CHECK (dimension <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            quantity TEXT NOT NULL CHECK (quantity IN ('length', 'thread', 'roughness')),
            nominal_mm REAL CHECK (nominal_mm > 0),
            lower_mm REAL CHECK (lower_mm > 0),
            upper_mm REAL CHECK (upper_mm <= 3000),
            origin TEXT NOT NULL CHECK (origin IN ('drawn', 'measured', 'standard')),
            standard_uncertainty_mm REAL CHECK (standard_uncertainty_mm >= 0),
            tolerance_class TEXT,
            PRIMARY KEY (part_number, dimension),
            CHECK (lower_mm <= upper_mm),
            CHECK (CASE quantity
                WHEN 'length' THEN nominal_mm IS NOT NULL AND lower_mm IS NOT NULL AND upper_mm IS NOT NULL
                ELSE coalesce(nominal_mm, lower_mm, upper_mm, standard_uncertainty_mm) IS NULL END),
            CHECK ((origin = 'measured') = (standard_uncertainty_mm IS NOT NULL))
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX part_dimension_by_limits ON part_dimension (dimension, lower_mm, upper_mm);

        CREATE TABLE unit (
            unit TEXT NOT NULL PRIMARY KEY COLLATE NOCASE
                CHECK (unit <> '' AND unit = trim(unit) AND instr(unit, '/') = 0),
            kind TEXT NOT NULL CHECK (kind IN (
                'coil_shock', 'air_shock', 'fork_leg', 'fork_damper', 'damper')),
            description TEXT NOT NULL DEFAULT '',
            maker TEXT,
            fluid TEXT,
            temperature TEXT,
            temperature_low_deg_c REAL CHECK (temperature_low_deg_c >= -100),
            temperature_high_deg_c REAL CHECK (temperature_high_deg_c <= 350),
            notes TEXT,
            source TEXT NOT NULL CHECK (source <> ''),
            CHECK (temperature_low_deg_c <= temperature_high_deg_c),
            CHECK ((temperature IS NULL) = (temperature_low_deg_c IS NULL)
               AND (temperature IS NULL) = (temperature_high_deg_c IS NULL))
        ) STRICT;

        CREATE TABLE place (
            unit TEXT NOT NULL COLLATE NOCASE REFERENCES unit (unit),
            place TEXT NOT NULL COLLATE NOCASE
                CHECK (place <> '' AND place = trim(place) AND instr(place, '/') = 0),
            kind TEXT NOT NULL CHECK (kind IN (
                'rod_gland', 'piston_gland', 'face_gland', 'wiper_seat', 'guide_ring_groove',
                'bushing_seat', 'eyelet', 'retaining_ring_groove', 'threaded_port', 'valve_seat',
                'gas_chamber')),
            description TEXT NOT NULL DEFAULT '',
            motion TEXT CHECK (motion IN ('static', 'reciprocating')),
            medium TEXT CHECK (medium IN ('liquid', 'gas')),
            pressure TEXT,
            gauge_pressure_mpa REAL CHECK (gauge_pressure_mpa BETWEEN 0 AND 100),
            pressure_from TEXT CHECK (pressure_from IN ('one_side', 'both_sides', 'inside', 'outside')),
            back_up_rings INTEGER CHECK (back_up_rings BETWEEN 0 AND 2),
            metal TEXT CHECK (metal IN ('aluminium', 'steel')),
            notes TEXT,
            PRIMARY KEY (unit, place),
            CHECK ((pressure IS NULL) = (gauge_pressure_mpa IS NULL))
        ) STRICT;
        CREATE INDEX place_by_kind ON place (kind, unit, place);

        CREATE TABLE place_fluid (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            fluid TEXT NOT NULL CHECK (fluid <> ''),
            position INTEGER NOT NULL CHECK (position >= 1),
            PRIMARY KEY (unit, place, fluid),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX place_fluid_by_fluid ON place_fluid (fluid);

        CREATE TABLE place_dimension (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            dimension TEXT NOT NULL CHECK (dimension <> ''),
            text TEXT NOT NULL CHECK (text <> ''),
            quantity TEXT NOT NULL CHECK (quantity IN ('length', 'thread', 'roughness')),
            nominal_mm REAL,
            lower_mm REAL,
            upper_mm REAL CHECK (upper_mm <= 3000),
            origin TEXT NOT NULL CHECK (origin IN ('drawn', 'measured', 'standard')),
            standard_uncertainty_mm REAL CHECK (standard_uncertainty_mm >= 0),
            tolerance_class TEXT,
            PRIMARY KEY (unit, place, dimension),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place) ON DELETE CASCADE,
            CHECK (lower_mm <= upper_mm),
            -- a radius, a chamfer or a clearance may be nothing; a size may not
            CHECK (lower_mm > 0 OR (lower_mm = 0 AND dimension IN (
                'corner_radius', 'lead_in_length', 'runout', 'guide_clearance', 'face_gap'))),
            CHECK (CASE quantity
                WHEN 'length' THEN nominal_mm IS NOT NULL AND lower_mm IS NOT NULL AND upper_mm IS NOT NULL
                ELSE coalesce(nominal_mm, lower_mm, upper_mm, standard_uncertainty_mm) IS NULL END),
            CHECK ((origin = 'measured') = (standard_uncertainty_mm IS NOT NULL))
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX place_dimension_by_limits ON place_dimension (dimension, lower_mm, upper_mm);

        CREATE TABLE rebuild_list (
            unit TEXT NOT NULL COLLATE NOCASE,
            place TEXT NOT NULL COLLATE NOCASE,
            part_number TEXT NOT NULL COLLATE NOCASE REFERENCES part (part_number),
            quantity INTEGER NOT NULL CHECK (quantity BETWEEN 1 AND 1000),
            renew TEXT NOT NULL CHECK (renew IN ('always', 'inspect')),
            PRIMARY KEY (unit, place, part_number),
            FOREIGN KEY (unit, place) REFERENCES place (unit, place)
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX rebuild_list_by_part ON rebuild_list (part_number);

        CREATE TABLE data_version (
            subject TEXT NOT NULL PRIMARY KEY CHECK (subject <> ''),
            version TEXT NOT NULL CHECK (version <> ''),
            description TEXT NOT NULL
        ) STRICT;
        """
    )
