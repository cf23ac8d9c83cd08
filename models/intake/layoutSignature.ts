/**
 * Tells layouts apart: the names of the columns, whatever their order.
 * @param headers names of the columns as in the file
 * @example layoutSignature(['Date', 'Asset']) → '["Asset","Date"]'
 */
export function layoutSignature(headers: readonly string[]): string {
  return JSON.stringify([...headers].sort());
}
