import { useRef, useState } from 'preact/hooks';

/** Where files are dropped or chosen. */
export function FileDrop({ onFiles }: { onFiles: (files: readonly File[]) => void }) {
  const [over, setOver] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const take = (list: FileList | null | undefined): void => {
    if (list !== null && list !== undefined && list.length > 0) onFiles([...list]);
  };
  return (
    <div
      class={over ? 'drop drop-over' : 'drop'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take(event.dataTransfer?.files);
      }}
    >
      <p>Drop files here, or</p>
      <label class="file-choice">
        <span>Choose files</span>
        <input
          ref={input}
          type="file"
          multiple
          accept=".csv,.tsv,.txt,.xlsx"
          onChange={(event) => {
            take(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
      </label>
    </div>
  );
}
