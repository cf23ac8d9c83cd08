import { useState } from 'preact/hooks';
import type { UnitStory } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { AddPhoto, PhotoRow } from './deskPhotos.tsx';
import { draftOf, keepDraft } from './drafts.ts';
import { useRead } from './useRead.ts';

const shownFindings = 12;

/** The unit's findings, newest first, with their photos; photos are added and removed in a name. */
export function LookPhotos({ story }: { story: UnitStory }) {
  const { unitNumber } = story.assessment;
  const { data, again } = useRead<'photos'>(`/api/units/${encodeURIComponent(unitNumber)}/photos`);
  const [name, setName] = useState(() => draftOf('technician', ''));
  const findings = story.records
    .filter(({ kind }) => kind === 'findings')
    .sort((a, b) => (a.on < b.on ? 1 : -1));
  if (findings.length === 0) return null;
  const named = name.trim().length >= 2;
  return (
    <section aria-labelledby="photos-title" class="desk">
      <h2 id="photos-title">Findings and their photos</h2>
      <label class="desk-number desk-keep no-print">
        <span>Your name, to add photos</span>
        <input
          type="text"
          autoComplete="name"
          maxLength={100}
          value={name}
          onInput={(event) => {
            setName(event.currentTarget.value);
            keepDraft('technician', event.currentTarget.value);
          }}
        />
      </label>
      <ul class="desk-findings">
        {findings.slice(0, shownFindings).map((finding) => {
          const photos = (data?.photos ?? []).filter((photo) => photo.finding === finding.id);
          return (
            <li key={finding.id}>
              <p>
                {date(finding.on)}: {finding.text}{' '}
                <span class="muted">
                  ({finding.file} line {finding.line})
                </span>
              </p>
              {photos.length > 0 && (
                <PhotoRow
                  photos={photos}
                  what={finding.text}
                  by={named ? name.trim() : null}
                  onRemoved={again}
                />
              )}
              {named && (
                <AddPhoto finding={finding.id} by={name.trim()} what="this finding" onAdded={again} />
              )}
            </li>
          );
        })}
      </ul>
      {findings.length > shownFindings && (
        <p class="muted">{findings.length - shownFindings} older findings stand among the records below.</p>
      )}
    </section>
  );
}
