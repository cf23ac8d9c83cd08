import { useEffect, useRef, useState } from 'preact/hooks';
import type { Chart as ChartInstance, ChartConfiguration, ChartType } from 'chart.js';
import { currentTheme, type Theme } from './ink.ts';

interface ChartProps {
  /** pure: theme in, Chart.js configuration out */
  readonly configure: (theme: Theme) => ChartConfiguration<ChartType>;
  /** one sentence that says what the chart shows */
  readonly summary: string;
  readonly height: number;
  /** index of the clicked bar or point on the x axis, and the dataset it belongs to */
  readonly onPick?: (index: number, dataset: number) => void;
}

/** A canvas drawn by Chart.js, which is loaded when the first chart is wanted. Redrawn when theme or data change. */
export function ChartCanvas({ configure, summary, height, onPick }: ChartProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const chart = useRef<ChartInstance | null>(null);
  const [theme, setTheme] = useState(0);
  useEffect(() => {
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    const redraw = (): void => setTheme((turn) => turn + 1);
    dark.addEventListener('change', redraw);
    return () => dark.removeEventListener('change', redraw);
  }, []);
  useEffect(() => {
    let wanted = true;
    void import('./register.ts').then(({ Chart }) => {
      if (!wanted || canvas.current === null) return;
      chart.current?.destroy();
      const configuration = configure(currentTheme(canvas.current));
      chart.current = new Chart(canvas.current, {
        ...configuration,
        options: {
          ...configuration.options,
          responsive: true,
          maintainAspectRatio: false,
          onClick: (_event, elements) => {
            const [first] = elements;
            if (first !== undefined && onPick !== undefined) onPick(first.index, first.datasetIndex);
          },
        },
      });
      canvas.current.dataset.drawn = 'yes';
    });
    return () => {
      wanted = false;
      chart.current?.destroy();
      chart.current = null;
    };
  }, [configure, theme]);
  return (
    <div class="chart" style={{ height: `calc(${height}px * var(--scale))` }}>
      <canvas ref={canvas} role="img" aria-label={summary} />
    </div>
  );
}
