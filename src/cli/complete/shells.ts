/** The shells that completion is known for. */
export const shells = ['bash', 'zsh', 'fish'] as const
export type Shell = (typeof shells)[number]

/** The line by which a shell is told to offer what lies on the disk; no candidate begins with a colon. */
export const offerPaths = { files: ':files', folders: ':folders' } as const
