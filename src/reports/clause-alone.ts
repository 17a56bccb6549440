/** The clause of a citation, without what it says: of `Invented Act, section 3: signs hang`, the part before. */
export function clauseAlone(source: string): string {
  return source.split(': ')[0] ?? source
}
