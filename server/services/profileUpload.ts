import type { Context } from '../context.ts';
import { profileTable } from '../files/profileTable.ts';
import { findUpload } from '../files/uploads.ts';
import { vocabulary } from '../vocabulary.ts';
import { Problem } from '../routes/problem.ts';
import type { ColumnProfile } from '../../models/schema/intake.ts';

/** Types, missing values and extremes in a sample of an uploaded file. */
export async function profileUpload(
  context: Context,
  id: string,
): Promise<{ file: string; rows: number; columns: ColumnProfile[] }> {
  const upload = await findUpload(context.paths.uploads, id);
  if (upload === null)
    throw new Problem(404, 'no_upload', 'This upload is not here any more. Choose the file again.');
  const profile = await profileTable(
    upload.path,
    upload.name.replace(/\.[^.]*$/, ''),
    vocabulary(),
    context.now().slice(0, 10),
  );
  if ('refused' in profile) throw new Problem(422, profile.refused, `${upload.name}: ${profile.message}`);
  return { file: upload.name, ...profile };
}
