import { useState } from 'preact/hooks';
import type { Photo } from '../../models/schema/deskEndpoints.ts';
import { RequestError, write, writeBytes } from '../api.ts';
import { moment } from '../format/dates.ts';
import { Notice } from './notice.tsx';

const longestSidePx = 1800;

/** A photo made smaller, as JPEG without the place and device that phones write into it; as it is where that fails. */
async function smaller(file: File): Promise<Blob> {
  try {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, longestSidePx / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.85));
    return made ?? file;
  } catch {
    return file;
  }
}

interface AddPhotoProps {
  readonly finding: number;
  /** name of who adds it */
  readonly by: string;
  readonly what: string;
  readonly onAdded: (photo: Photo) => void;
}

/** Chooses or takes photos and attaches them to a finding. */
export function AddPhoto({ finding, by, what, onAdded }: AddPhotoProps) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  const add = async (files: FileList | null): Promise<void> => {
    setBusy(true);
    setFailed(null);
    try {
      for (const file of files ?? [])
        onAdded(
          await writeBytes<'addPhoto'>(
            `/api/findings/${finding}/photos`,
            { addedBy: by },
            await smaller(file),
          ),
        );
    } catch (reason) {
      setFailed(reason instanceof RequestError ? reason.message : String(reason));
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      <label class="file-choice desk-photo-choice">
        {busy ? 'Sending the photo …' : `Add a photo of ${what}`}
        <input
          type="file"
          accept="image/*"
          multiple
          disabled={busy}
          onChange={(event) => {
            void add(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
      </label>
      {failed !== null && <Notice kind="fault" words={failed} />}
    </>
  );
}

interface PhotoRowProps {
  readonly photos: readonly Photo[];
  readonly what: string;
  /** name of who may remove; null: only shown */
  readonly by: string | null;
  readonly onRemoved: () => void;
}

/** The photos of one finding; each opens large in a page of its own. */
export function PhotoRow({ photos, what, by, onRemoved }: PhotoRowProps) {
  const [asking, setAsking] = useState<number | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const remove = (id: number): void => {
    setFailed(null);
    write<'removePhoto'>(`/api/photos/${id}/removal`, { removedBy: by })
      .then(onRemoved)
      .catch((reason: unknown) =>
        setFailed(reason instanceof RequestError ? reason.message : String(reason)),
      );
  };
  return (
    <>
      {failed !== null && <Notice kind="fault" words={failed} />}
      <ul class="desk-photos">
        {photos.map((photo) => (
          <li key={photo.id}>
            <a href={`/api/photos/${photo.id}`} target="_blank" rel="noreferrer">
              <img
                src={`/api/photos/${photo.id}`}
                alt={`Photo of ${what}, by ${photo.addedBy}`}
                loading="lazy"
              />
            </a>
            <span class="muted">
              {photo.addedBy}, {moment(photo.addedAt)}
            </span>
            {by !== null &&
              (asking === photo.id ? (
                <button type="button" onClick={() => remove(photo.id)}>
                  Remove this photo for good
                </button>
              ) : (
                <button type="button" class="link" onClick={() => setAsking(photo.id)}>
                  Remove
                </button>
              ))}
          </li>
        ))}
      </ul>
    </>
  );
}
