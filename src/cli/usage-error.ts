/** A mistake in how the command was called: told with its remedy, exit code 2, no stack. */
export class UsageError extends Error {}
