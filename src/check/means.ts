import type { CacheFolder } from '../files/cache-folder.js'
import type { Source } from '../files/source.js'

/** What may make a check quicker. None of it changes what is found. */
export interface Means {
  /** How many threads may work beside this one. */
  readonly threads: number
  /** A thread is started for each so many files: to start one takes as long as to judge some hundreds. */
  readonly filesPerThread: number
  readonly memory?: {
    readonly folderFor: (source: Source) => CacheFolder
    /** Names the program in the very state it is in. */
    readonly program: string
    /** The time before anything is read, in milliseconds. */
    readonly now: number
  }
  /** Told as sites are judged. */
  readonly progress?: (done: number, all: number) => void
}
