/** What a table may cost before it is refused; every limit can be set by the caller. */
export interface TableLimits {
  /** size of a text file, bytes */
  readonly maxTextBytes: number;
  /** size of a packed workbook, bytes */
  readonly maxWorkbookBytes: number;
  /** size of a workbook once unpacked, bytes: a small file can unpack to a huge one */
  readonly maxUnpackedBytes: number;
  readonly maxColumns: number;
  /** length of one row in a text file, bytes; bounds a cell and an unclosed quote too */
  readonly maxRowBytes: number;
  /** rows below the header of one sheet */
  readonly maxRows: number;
}

export const defaultTableLimits: TableLimits = {
  maxTextBytes: 2_000_000_000,
  maxWorkbookBytes: 60_000_000,
  maxUnpackedBytes: 300_000_000,
  maxColumns: 1000,
  maxRowBytes: 1_000_000,
  maxRows: 5_000_000,
};

/** `1 234 567` bytes as `1.2 MB`, for messages. */
export function sizeInWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${(bytes / 1000).toFixed(1)} kB`;
  if (bytes < 1_000_000_000) return `${(bytes / 1_000_000).toFixed(1)} MB`;
  return `${(bytes / 1_000_000_000).toFixed(1)} GB`;
}
