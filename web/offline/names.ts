/** What pages and service worker agree on. The build writes it into the worker, which is one file that imports nothing. */
export const offlineNames = {
  /** the cache of answers */
  readsCache: 'sumpwise-reads',
  /** the header that a kept answer carries: when the server gave it, ISO */
  keptAtHeader: 'Sumpwise-Kept-At',
  /** the header of an answer that newer records are still worked through for: when it was made, ISO */
  formerHeader: 'Former-Answer-Of',
  /** how many answers a device keeps; the oldest go first */
  mostKept: 300,
} as const;
