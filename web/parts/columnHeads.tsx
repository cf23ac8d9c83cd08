interface HeadsProps {
  readonly titles: readonly string[];
  /** titles of columns that hold numbers */
  readonly numbers?: readonly string[];
}

/** The titles of a table's columns; those of numbers stand right. */
export function ColumnHeads({ titles, numbers = [] }: HeadsProps) {
  return (
    <thead>
      <tr>
        {titles.map((title) => (
          <th scope="col" key={title} class={numbers.includes(title) ? 'number' : undefined}>
            {title}
          </th>
        ))}
      </tr>
    </thead>
  );
}
