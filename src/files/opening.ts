/** How to open a source again, in another thread. */
export type Opening =
  | { readonly kind: 'work tree'; readonly root: string }
  | { readonly kind: 'index'; readonly root: string }
  | { readonly kind: 'revision'; readonly root: string; readonly rev: string }
