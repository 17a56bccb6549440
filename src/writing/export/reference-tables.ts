import type { ExportTable } from './table-words.js'
import { day, number, text, whole, yesNo } from './table-words.js'

const notStated = { empty: 'not stated' }
const site = text('site', 'Id of the site')

/** What events are told about: one folder a district, not split by year. */
export const referenceTables: readonly ExportTable[] = [
  {
    name: 'districts',
    row: 'A district, and what this export of it holds',
    key: [],
    columns: [
      text('name', 'Name of the district'),
      text('state', 'Two-letter code of the state', notStated),
      text('time_zone', 'IANA time zone of every day in the export'),
      day('records_begin', 'First day the ledger answers for'),
      day('as_of', 'Day on which the ledger was read; whatever stands or is open stands on it'),
      day('from_day', 'First day exported', { empty: 'from the first record on' }),
      day('to_day', 'Last day exported'),
      whole('sites_examined', 'Sites whose records are in the export', { unit: 'sites' }),
      whole('sites_left_out', 'Sites left out because a record in them could not be used', { unit: 'sites' }),
      text('program_version', 'Version of the program that wrote it'),
    ],
  },
  {
    name: 'not_examined',
    row: 'Something that could not be read, so that nothing in the export tells of it',
    key: ['number'],
    columns: [
      whole('number', 'Counted from 1'),
      text('what', 'site, or record of the district'),
      text('site', 'Id of the site', { empty: 'it belongs to the district' }),
    ],
  },
  {
    name: 'sites',
    row: 'A site that was examined',
    key: ['site'],
    columns: [
      site,
      text('name', 'Name of the site'),
      text('kind', 'What it is in law; a school if the record does not say'),
      day('begins', 'First day the ledger answers for it'),
      day('ends', 'Last day of a closed site', { empty: 'not closed' }),
      text('routine_visits', 'How often the contract in force on the as-of day asks for a routine visit', {
        empty: 'no contract on that day',
      }),
    ],
  },
  {
    name: 'areas',
    row: 'An area of a site',
    key: ['site', 'area'],
    columns: [
      site,
      text('area', 'Id of the area'),
      text('name', 'What people call it', { empty: 'the id' }),
      text('kind', 'Kind of area'),
      whole('floor', 'Floor; 1 is the ground floor', notStated),
      number('extent_ft2', 'Size of the floor', { unit: 'square feet', ...notStated }),
      yesNo('children', 'Whether children use it', notStated),
      day('begins', 'First day it is part of the site'),
      day('ends', 'Last day it is part of the site', { empty: 'it still is' }),
    ],
  },
  {
    name: 'devices',
    row: 'One life of a device, from being set to being taken up',
    key: ['site', 'device', 'life'],
    columns: [
      site,
      text('device', 'Id of the device'),
      whole('life', 'An id can be used again once a device is taken up: 1 for the first, 2 for the next'),
      text('kind', 'Kind of device'),
      yesNo('counts', 'Whether devices of its kind count animals'),
      whole('traps', 'Traps that stand there as one', { unit: 'traps' }),
      text('pests', 'Ids of the pests it is for, blanks between them', { empty: 'for none in particular' }),
      text('area', 'Id of the area it stands in, or last stood in'),
      day('set_on', 'Day it was set'),
      day('taken_up_on', 'Day it was taken up for good', { empty: 'it still stands' }),
    ],
  },
  {
    name: 'products',
    row: 'A product of the register',
    key: ['product'],
    columns: [
      text('product', 'Id of the product in the register of its district; districts choose their own'),
      text('name', 'Brand name as on the label'),
      text('kind', 'What it is in law'),
      text('registration', 'EPA registration number: the same in every district', notStated),
      text('formulation', 'What it is: gel, dust, bait and so on', notStated),
      text('signal_word', 'Signal word as printed on the label', notStated),
      yesNo('restricted_use', 'Whether the label says it is for restricted use', notStated),
      number('density_g_per_ml', 'Weight of a volume of the undiluted product', {
        unit: 'g per mL',
        ...notStated,
      }),
    ],
  },
  {
    name: 'ingredients',
    row: 'An active ingredient of a product',
    key: ['product', 'ingredient'],
    columns: [
      text('product', 'Id of the product'),
      text('ingredient', 'Id of the active ingredient; the same in every district'),
      text('name', 'Its name'),
      text('strength', 'How strong it is, as the register has it'),
    ],
  },
]
