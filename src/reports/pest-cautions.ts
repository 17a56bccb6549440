import { cautionTable, pestTable } from '../records/tables.js'

/** The usual cautions for pests that are there or may be, each once, in the order of the table. */
export function pestCautions(pests: readonly string[]): string[] {
  return namedCautions(pests).map(({ says }) => says)
}

/** The same, each with what it is about in two words, so that a page can point at one that it told before. */
export function namedCautions(pests: readonly string[]): { readonly about: string; readonly says: string }[] {
  const groups = new Set(pests.map((pest) => pestTable().get(pest)?.group))
  return [...cautionTable()]
    .filter(
      ([, caution]) =>
        caution.pests?.some((pest) => pests.includes(pest)) ||
        caution.groups?.some((group) => groups.has(group)),
    )
    .map(([id, { says }]) => ({ about: id.split('-').join(' '), says }))
}
