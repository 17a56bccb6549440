-- The tables of an export as views, for DuckDB started in the folder of the export. Generated from the tables of the
-- program; edit those, not this file.

CREATE OR REPLACE VIEW visits AS SELECT * FROM read_parquet('visits/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW readings AS SELECT * FROM read_parquet('readings/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW catches AS SELECT * FROM read_parquet('catches/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW applications AS SELECT * FROM read_parquet('applications/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW active_ingredients AS SELECT * FROM read_parquet('active_ingredients/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW conditions AS SELECT * FROM read_parquet('conditions/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW complaints AS SELECT * FROM read_parquet('complaints/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW problems AS SELECT * FROM read_parquet('problems/*/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER});

CREATE OR REPLACE VIEW districts AS SELECT * FROM read_parquet('districts/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW not_examined AS SELECT * FROM read_parquet('not_examined/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW sites AS SELECT * FROM read_parquet('sites/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW areas AS SELECT * FROM read_parquet('areas/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW devices AS SELECT * FROM read_parquet('devices/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW products AS SELECT * FROM read_parquet('products/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});

CREATE OR REPLACE VIEW ingredients AS SELECT * FROM read_parquet('ingredients/*/part.parquet', hive_partitioning = true, hive_types = {'district': VARCHAR});
