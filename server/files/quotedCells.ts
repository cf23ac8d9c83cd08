/**
 * Splits one line into cells where its quotes are plainly right: a quoted cell opens right after a separator, ends
 * right before one, and doubles the quotes inside.
 * @returns null where that is not so; the line then needs a parser that looks beyond it
 */
export function quotedCells(line: string, separator: string): string[] | null {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    if (line.charCodeAt(at) === 34) {
      let close = line.indexOf('"', at + 1);
      let doubled = false;
      while (close >= 0 && line.charCodeAt(close + 1) === 34) {
        doubled = true;
        close = line.indexOf('"', close + 2);
      }
      if (close < 0) return null;
      const text = line.slice(at + 1, close);
      cells.push(doubled ? text.replaceAll('""', '"') : text);
      at = close + 1;
    } else {
      const next = line.indexOf(separator, at);
      const end = next < 0 ? line.length : next;
      const text = line.slice(at, end);
      if (text.includes('"')) return null;
      cells.push(text);
      at = end;
    }
    if (at >= line.length) return cells;
    if (line[at] !== separator) return null;
    at += 1;
    if (at === line.length) {
      cells.push('');
      return cells;
    }
  }
}
