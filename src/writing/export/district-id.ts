/** Lower-case letters, digits and hyphens, a letter first: safe as the name of a folder, and never read as a number. */
const pattern = /^[a-z](?:[a-z0-9]|-(?=[a-z0-9])){0,62}$/

export function isDistrictId(text: string): boolean {
  return pattern.test(text)
}

/**
 * The id of a district that states none: its state and name, as in `or-alder-fork-school-district`. Undefined where the
 * name has letters that this would drop, since two districts could then become one. Accents are dropped.
 */
export function districtIdOf({
  name,
  state,
}: {
  readonly name: string
  readonly state?: string | undefined
}) {
  const plain = `${state ?? ''} ${name}`
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’]/g, '')
  if (/(?![a-z])\p{L}/u.test(plain)) return undefined
  const id = plain.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '')
  return isDistrictId(id) ? id : undefined
}
