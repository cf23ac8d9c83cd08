/** Colours of the current theme, read from the style sheet so that charts and pages never differ. */
export interface Theme {
  readonly ink: string;
  readonly muted: string;
  readonly line: string;
  readonly paper: string;
  readonly accent: string;
  readonly scale: number;
}

export function currentTheme(element: Element): Theme {
  const style = getComputedStyle(element);
  // six digits, so that two more can be added for how much shows through
  const value = (name: string): string =>
    style
      .getPropertyValue(name)
      .trim()
      .replace(/^#(.)(.)(.)$/, '#$1$1$2$2$3$3');
  return {
    ink: value('--ink'),
    muted: value('--ink-soft'),
    line: value('--line'),
    paper: value('--sheet'),
    accent: value('--accent'),
    scale: Number(value('--scale')) || 1,
  };
}

/** Hatches by number, from light to dense: 0 outline, 1 wide, 2 dense, 3 dots, 4 cross, 5 solid. */
export const hatchNames = [
  'outline',
  'wide lines',
  'dense lines',
  'dots',
  'crossed lines',
  'level lines',
  'solid',
] as const;

/** A repeating pattern for one hatch in the theme's ink. */
export function hatch(index: number, theme: Theme): CanvasPattern | string {
  const kind = index % hatchNames.length;
  if (kind === 0) return theme.paper;
  if (kind === 6) return theme.ink;
  const size = 8;
  const tile = document.createElement('canvas');
  tile.width = size;
  tile.height = size;
  const pen = tile.getContext('2d');
  if (pen === null) return theme.muted;
  pen.fillStyle = theme.paper;
  pen.fillRect(0, 0, size, size);
  pen.strokeStyle = theme.ink;
  pen.fillStyle = theme.ink;
  pen.lineWidth = kind === 2 ? 2 : 1;
  const slanted = (down: boolean): void => {
    pen.beginPath();
    for (let x = -size; x <= size; x += kind === 2 ? size / 2 : size) {
      pen.moveTo(x, down ? 0 : size);
      pen.lineTo(x + size, down ? size : 0);
    }
    pen.stroke();
  };
  if (kind === 1 || kind === 2 || kind === 4) slanted(false);
  if (kind === 4) slanted(true);
  if (kind === 3) {
    pen.fillRect(1, 1, 2, 2);
    pen.fillRect(5, 5, 2, 2);
  }
  if (kind === 5) pen.fillRect(0, 3, size, 2);
  return pen.createPattern(tile, 'repeat') ?? theme.muted;
}
