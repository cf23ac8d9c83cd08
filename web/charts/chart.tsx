import { useEffect, useRef, useState } from 'preact/hooks';
import type { ActiveElement, ChartConfiguration, ChartEvent, ChartType } from 'chart.js';
import { whenIdle } from '../parts/whenIdle.ts';
import { currentTheme, type Theme } from './ink.ts';
import { loadCharts } from './loadCharts.ts';

interface ChartProps<T extends ChartType> {
  /** pure: theme in, Chart.js configuration out */
  readonly configure: (theme: Theme) => ChartConfiguration<T>;
  /** one sentence that says what the chart shows */
  readonly summary: string;
  readonly height: number;
  /** index of the clicked bar or point on the x axis, and the dataset it belongs to */
  readonly onPick?: (index: number, dataset: number) => void;
}

/** A canvas does not redraw itself when its typeface arrives, so that is waited for; without it the system's is used. */
const fontsLoaded = (): Promise<unknown> =>
  document.fonts.load("16px 'Atkinson Hyperlegible'").catch(() => null);

/** What a sheet of A4 or Letter holds between its margins, px; drawn for that, a chart's words are of one size with the text. */
const paperWidth = 680;

/** Charts that stand already are drawn anew after what the reader sees first, such as the list: within so many ms. */
const redrawnWithinMs = 300;

/** A canvas drawn by Chart.js, which is loaded when the first chart is wanted. Redrawn when theme or data change. */
export function ChartCanvas<T extends ChartType>({ configure, summary, height, onPick }: ChartProps<T>) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const chart = useRef<{ destroy(): void } | null>(null);
  /** draws at once, when Chart.js and the typeface are there */
  const drawNow = useRef<(() => void) | null>(null);
  const [theme, setTheme] = useState(0);
  // the newest handler, without drawing anew for it
  const picked = useRef(onPick);
  picked.current = onPick;
  useEffect(() => {
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    const redraw = (): void => setTheme((turn) => turn + 1);
    dark.addEventListener('change', redraw);
    // paper has its own width and colours, and does not wait
    const paper = window.matchMedia('print');
    const reprint = (): void => {
      const frame = canvas.current?.parentElement;
      if (frame !== null && frame !== undefined)
        frame.style.width = paper.matches && frame.clientWidth > paperWidth ? `${paperWidth}px` : '';
      drawNow.current?.();
    };
    paper.addEventListener('change', reprint);
    return () => {
      dark.removeEventListener('change', redraw);
      paper.removeEventListener('change', reprint);
    };
  }, []);
  useEffect(() => {
    let wanted = true;
    let forget = (): void => undefined;
    const draw = (): void =>
      void Promise.all([loadCharts(), fontsLoaded()]).then(([{ Chart }]) => {
        // an earlier drawing may come in last: the one that stands is redrawn for paper
        if (!wanted) return;
        drawNow.current = () => {
          if (!wanted || canvas.current === null) return;
          chart.current?.destroy();
          const element = canvas.current;
          const configuration = configure(currentTheme(element));
          const handlers = {
            onClick: (_event: ChartEvent, [first]: ActiveElement[]): void => {
              if (first !== undefined) picked.current?.(first.index, first.datasetIndex);
            },
            onHover: (_event: ChartEvent, elements: ActiveElement[]): void => {
              element.style.cursor = elements.length > 0 && picked.current !== undefined ? 'pointer' : '';
            },
          };
          if (configuration.options !== undefined) Object.assign(configuration.options, handlers);
          chart.current = new Chart(element, configuration);
          element.dataset.drawn = 'yes';
        };
        drawNow.current();
      });
    if (chart.current === null) draw();
    else forget = whenIdle(draw, redrawnWithinMs);
    return () => {
      wanted = false;
      forget();
    };
  }, [configure, theme]);
  useEffect(
    () => () => {
      chart.current?.destroy();
      chart.current = null;
    },
    [],
  );
  return (
    <div class="chart" style={{ height: `calc(${height}px * var(--scale))` }}>
      <canvas ref={canvas} role="img" aria-label={summary} />
    </div>
  );
}
