/**
 * What kind of number stands on a label or in a record: the federal registration, or one of the numbers that look
 * like it and are none. Letters are read in either case, and zeros in front of a number do not count.
 *
 * Sources: 40 CFR 156.10(e) and (f), 152.132, and 162.150 to 162.156 (from memory); EPA Label Review Manual, chapter
 * 14 (2012), for the forms and for the letters of a file symbol; EPA, "Pesticide Establishment Registration and
 * Reporting Questions", for establishment numbers; California Department of Pesticide Regulation, "What's in a
 * Registration Number?", for the length of each part and the form of that state's register.
 */
export type NumberKind =
  | 'registration'
  | 'file-symbol'
  | 'experimental-use-permit'
  | 'establishment'
  | 'special-local-need'
  | 'california-register'
  | 'something-else'

const company = '0*[1-9][0-9]{0,6}'
const product = '0*[1-9][0-9]{0,4}'
/** Each letter of REGULATION stands for a digit, from R for 1 to N for 0. */
const letters = 'REGULATION'

const forms: readonly (readonly [NumberKind, RegExp])[] = [
  ['registration', new RegExp(`^${company}-${product}(?:-${company})?$`)],
  // Before the establishment number, whose three letters would fit too.
  ['experimental-use-permit', new RegExp(`^${company}-EUP-[0-9]{1,3}$`)],
  ['establishment', new RegExp(`^${company}-[A-Z]{2,3}-[0-9]{1,3}$`)],
  ['california-register', new RegExp(`^${company}-${product}-[A-Z]{2}(?:-${company})?$`)],
  ['file-symbol', new RegExp(`^${company}-N*[REGULATIO][${letters}]{0,4}$`)],
  ['special-local-need', /^([A-Z]{2})-?[0-9]{2}[0-9]{4}$/],
]

/** States and territories as FIFRA counts them, 7 U.S.C. 136(aa), from memory; two letters of the post office each. */
const states = new Set(
  (
    'AK AL AR AS AZ CA CO CT DC DE FL GA GU HI IA ID IL IN KS KY LA MA MD ME MI MN MO MP MS MT NC ND NE NH NJ NM NV ' +
    'NY OH OK OR PA PR RI SC SD TN TX UT VA VI VT WA WI WV WY'
  ).split(' '),
)

/** Kind of a number, with or without the words that a label prints before it. */
export function kindOfNumber(text: string): NumberKind {
  const number = withoutWords(text)
  const [kind, form] = forms.find(([, form]) => form.test(number)) ?? (['something-else', /^/] as const)
  if (kind !== 'special-local-need') return kind
  return states.has(form.exec(number)?.[1] ?? '') ? kind : 'something-else'
}

/**
 * A registration number in the one way of writing it that compares: `000279-03206` is `279-3206`. A number of three
 * parts stays one of three: the third is the distributor, whose label is another one. Null for any other kind.
 */
export function normalRegistration(text: string): string | null {
  const number = withoutWords(text)
  return kindOfNumber(number) === 'registration' ? withoutZeros(number) : null
}

/** The registration number a file symbol would become: 6767-EGN becomes 6767-230. Null for any other kind. */
export function registrationAppliedFor(text: string): string | null {
  const number = withoutWords(text)
  if (kindOfNumber(number) !== 'file-symbol') return null
  const [holder = '', symbol = ''] = number.split('-')
  const digits = [...symbol].map((letter) => (letters.indexOf(letter) + 1) % 10).join('')
  return withoutZeros(`${holder}-${digits}`)
}

function withoutWords(text: string): string {
  return text
    .trim()
    .toUpperCase()
    .replace(
      /^(?:EPA )?(?:REGISTRATION|REG\.?|ESTABLISHMENT|EST\.?|SLN) ?(?:NO\.?|NUMBER)?:? ?(?=[0-9A-Z])/,
      '',
    )
}

function withoutZeros(number: string): string {
  return number
    .split('-')
    .map((part) => part.replace(/^0+/, ''))
    .join('-')
}
