-- The tables of an export as views, for DuckDB started in the folder of the export. Generated from the tables of the
-- program; edit those, not this file.

CREATE OR REPLACE VIEW visits AS SELECT * FROM read_csv('visits/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'visit': 'VARCHAR',
    'day': 'DATE',
    'purpose': 'VARCHAR',
    'made_by': 'VARCHAR',
    'entered_by': 'VARCHAR',
    'starts': 'VARCHAR',
    'ends': 'VARCHAR',
    'complaint_log': 'VARCHAR',
    'areas_inspected': 'BIGINT',
    'areas_no_entry': 'BIGINT',
    'sightings': 'BIGINT'
  });

CREATE OR REPLACE VIEW readings AS SELECT * FROM read_csv('readings/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'visit': 'VARCHAR',
    'nth': 'BIGINT',
    'day': 'DATE',
    'area': 'VARCHAR',
    'area_kind': 'VARCHAR',
    'device': 'VARCHAR',
    'life': 'BIGINT',
    'device_kind': 'VARCHAR',
    'traps': 'BIGINT',
    'usable': 'BOOLEAN',
    'why_not': 'VARCHAR',
    'trap_nights': 'BIGINT',
    'renewed': 'BOOLEAN',
    'bait_taken': 'VARCHAR',
    'tracks': 'VARCHAR'
  });

CREATE OR REPLACE VIEW catches AS SELECT * FROM read_csv('catches/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'visit': 'VARCHAR',
    'nth': 'BIGINT',
    'day': 'DATE',
    'area': 'VARCHAR',
    'area_kind': 'VARCHAR',
    'device': 'VARCHAR',
    'life': 'BIGINT',
    'device_kind': 'VARCHAR',
    'pest': 'VARCHAR',
    'on_device': 'BIGINT',
    'caught': 'BIGINT',
    'is_for': 'BOOLEAN',
    'in_rates': 'BOOLEAN',
    'trap_nights': 'BIGINT'
  });

CREATE OR REPLACE VIEW applications AS SELECT * FROM read_csv('applications/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'application': 'VARCHAR',
    'day': 'DATE',
    'how': 'VARCHAR',
    'product': 'VARCHAR',
    'is_pesticide': 'BOOLEAN',
    'made_by': 'VARCHAR',
    'method': 'VARCHAR',
    'pests': 'VARCHAR',
    'areas': 'VARCHAR',
    'area_kind': 'VARCHAR',
    'weight_g': 'DOUBLE',
    'volume_ml': 'DOUBLE',
    'pieces': 'DOUBLE',
    'piece': 'VARCHAR',
    'is_whole': 'BOOLEAN'
  });

CREATE OR REPLACE VIEW active_ingredients AS SELECT * FROM read_csv('active_ingredients/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'application': 'VARCHAR',
    'day': 'DATE',
    'product': 'VARCHAR',
    'ingredient': 'VARCHAR',
    'active_g': 'DOUBLE',
    'is_whole': 'BOOLEAN',
    'why_not': 'VARCHAR'
  });

CREATE OR REPLACE VIEW conditions AS SELECT * FROM read_csv('conditions/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'condition': 'VARCHAR',
    'times_back': 'BIGINT',
    'area': 'VARCHAR',
    'area_kind': 'VARCHAR',
    'kind': 'VARCHAR',
    'gives': 'VARCHAR',
    'owner': 'VARCHAR',
    'found_on': 'DATE',
    'put_right_on': 'DATE',
    'followed_to': 'DATE',
    'due_on': 'DATE',
    'is_open': 'BOOLEAN',
    'is_overdue': 'BOOLEAN',
    'days_followed': 'BIGINT',
    'is_put_right': 'BOOLEAN',
    'in_time': 'BOOLEAN',
    'not_judged': 'VARCHAR',
    'came_back': 'BOOLEAN'
  });

CREATE OR REPLACE VIEW complaints AS SELECT * FROM read_csv('complaints/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'complaint': 'VARCHAR',
    'came_in_on': 'DATE',
    'made_by': 'VARCHAR',
    'area': 'VARCHAR',
    'area_kind': 'VARCHAR',
    'pest': 'VARCHAR',
    'is_withdrawn': 'BOOLEAN',
    'answered_on': 'DATE',
    'followed_to': 'DATE',
    'days_followed': 'BIGINT',
    'is_answered': 'BOOLEAN',
    'due_on': 'DATE',
    'in_time': 'BOOLEAN',
    'is_open': 'BOOLEAN',
    'is_overdue': 'BOOLEAN'
  });

CREATE OR REPLACE VIEW problems AS SELECT * FROM read_csv('problems/*/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR, 'year': INTEGER}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'fingerprint': 'VARCHAR',
    'nth': 'BIGINT',
    'site': 'VARCHAR',
    'rule': 'VARCHAR',
    'level': 'VARCHAR',
    'is_gap': 'BOOLEAN',
    'who_can_mend': 'VARCHAR',
    'record': 'VARCHAR',
    'since': 'DATE',
    'until_day': 'DATE',
    'since_or_as_of': 'DATE',
    'stands': 'BOOLEAN',
    'exception': 'VARCHAR'
  });

CREATE OR REPLACE VIEW districts AS SELECT * FROM read_csv('districts/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'name': 'VARCHAR',
    'state': 'VARCHAR',
    'time_zone': 'VARCHAR',
    'records_begin': 'DATE',
    'as_of': 'DATE',
    'from_day': 'DATE',
    'to_day': 'DATE',
    'sites_examined': 'BIGINT',
    'sites_left_out': 'BIGINT',
    'program_version': 'VARCHAR'
  });

CREATE OR REPLACE VIEW not_examined AS SELECT * FROM read_csv('not_examined/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'number': 'BIGINT',
    'what': 'VARCHAR',
    'site': 'VARCHAR'
  });

CREATE OR REPLACE VIEW sites AS SELECT * FROM read_csv('sites/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'name': 'VARCHAR',
    'kind': 'VARCHAR',
    'begins': 'DATE',
    'ends': 'DATE',
    'routine_visits': 'VARCHAR'
  });

CREATE OR REPLACE VIEW areas AS SELECT * FROM read_csv('areas/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'area': 'VARCHAR',
    'name': 'VARCHAR',
    'kind': 'VARCHAR',
    'floor': 'BIGINT',
    'extent_ft2': 'DOUBLE',
    'children': 'BOOLEAN',
    'begins': 'DATE',
    'ends': 'DATE'
  });

CREATE OR REPLACE VIEW devices AS SELECT * FROM read_csv('devices/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'site': 'VARCHAR',
    'device': 'VARCHAR',
    'life': 'BIGINT',
    'kind': 'VARCHAR',
    'counts': 'BOOLEAN',
    'traps': 'BIGINT',
    'pests': 'VARCHAR',
    'area': 'VARCHAR',
    'set_on': 'DATE',
    'taken_up_on': 'DATE'
  });

CREATE OR REPLACE VIEW products AS SELECT * FROM read_csv('products/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'product': 'VARCHAR',
    'name': 'VARCHAR',
    'kind': 'VARCHAR',
    'registration': 'VARCHAR',
    'formulation': 'VARCHAR',
    'signal_word': 'VARCHAR',
    'restricted_use': 'BOOLEAN',
    'density_g_per_ml': 'DOUBLE'
  });

CREATE OR REPLACE VIEW ingredients AS SELECT * FROM read_csv('ingredients/*/part.csv', hive_partitioning = true, hive_types = {'district': VARCHAR}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
    'product': 'VARCHAR',
    'ingredient': 'VARCHAR',
    'name': 'VARCHAR',
    'strength': 'VARCHAR'
  });
