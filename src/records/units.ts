/** Units a record may use, by what they measure. Their factors stand in measure/quantities. */
export const lengthUnits = ['in', 'ft', 'yd', 'mm', 'cm', 'm'] as const
export const areaUnits = ['ft2', 'yd2', 'acre', 'm2', 'hectare'] as const
export const volumeUnits = ['fl oz', 'tsp', 'tbsp', 'cup', 'pt', 'qt', 'gal', 'mL', 'L'] as const
export const weightUnits = ['oz', 'lb', 'mg', 'g', 'kg'] as const
/** Ready-to-use pieces, counted. */
export const pieceUnits = ['block', 'packet', 'tablet', 'placement', 'station', 'each'] as const
/** Pieces of the product itself, which can weigh something each; a placement is a place. */
export const weighedPieceUnits = ['block', 'packet', 'tablet', 'station', 'each'] as const
export const amountUnits = [...volumeUnits, ...weightUnits, ...pieceUnits] as const
/** Room air that a space treatment fills. */
export const spaceUnits = ['ft3', '1000 ft3', 'm3'] as const
export const speedUnits = ['mph', 'km/h', 'm/s'] as const
export const temperatureUnits = ['F', 'C'] as const
export const shortTimeUnits = ['min', 'h'] as const
export const strengthUnits = ['%', 'lb/gal', 'g/L'] as const
export const intervalUnits = ['day', 'days', 'week', 'weeks', 'month', 'months'] as const
/** Lead times of rulebooks. Business days are Monday to Friday without federal holidays; school days follow the calendar. */
export const leadUnits = ['hours', 'days', 'business days', 'school days'] as const
export const yearUnits = ['month', 'months', 'year', 'years'] as const
