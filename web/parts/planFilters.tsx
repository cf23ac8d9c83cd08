interface SiteChoiceProps {
  readonly sites: readonly { readonly site: string }[];
  /** '' = all sites */
  readonly site: string;
  readonly choose: (site: string) => void;
}

/** Which site's share of the plan is shown. */
export function SiteChoice({ sites, site, choose }: SiteChoiceProps) {
  return (
    <label>
      Site
      <select value={site} onChange={(event) => choose(event.currentTarget.value)}>
        <option value="">all sites</option>
        {sites.map((entry) => (
          <option key={entry.site}>{entry.site}</option>
        ))}
      </select>
    </label>
  );
}

const spans = [4, 8, 13, 26];

/** How many weeks the plan looks ahead; the number in the address is offered too. */
export function WeeksChoice({ weeks, choose }: { weeks: number; choose: (weeks: string) => void }) {
  return (
    <label>
      Weeks ahead
      <select value={String(weeks)} onChange={(event) => choose(event.currentTarget.value)}>
        {[...new Set([...spans, weeks])]
          .sort((a, b) => a - b)
          .map((span) => (
            <option key={span} value={String(span)}>
              {span}
            </option>
          ))}
      </select>
    </label>
  );
}

/** The site that an address names, where the plan has it; '' = all sites. */
export function siteIn(sites: readonly { readonly site: string }[], named: string | undefined): string {
  return sites.find(({ site }) => site === named)?.site ?? '';
}
