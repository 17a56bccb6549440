import { cautionTable, pestTable } from '../records/tables.js'

/** The usual cautions for pests that are there or may be, each once, in the order of the table. */
export function pestCautions(pests: readonly string[]): string[] {
  const groups = new Set(pests.map((pest) => pestTable().get(pest)?.group))
  return [...cautionTable().values()]
    .filter(
      (caution) =>
        caution.pests?.some((pest) => pests.includes(pest)) ||
        caution.groups?.some((group) => groups.has(group)),
    )
    .map(({ says }) => says)
}
