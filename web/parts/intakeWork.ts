import { useRef, useState } from 'preact/hooks';
import { read, RequestError, write, type Answer } from '../api.ts';
import { CalledOff, sendFile, type SentFile } from './sendFile.ts';

/** What is going on, in words and as a share of it, 0..1; null where that is not known yet. */
export interface WorkAt {
  readonly words: string;
  readonly share: number | null;
}

const askEveryMs = 400;

/** Work on files that takes a while: how far it is, and a way to call it off. */
export function useIntakeWork() {
  const [at, setAt] = useState<WorkAt | null>(null);
  const stop = useRef<AbortController | null>(null);
  const whileAt = async <T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> => {
    const controller = new AbortController();
    stop.current = controller;
    try {
      return await work(controller.signal);
    } finally {
      stop.current = null;
      setAt(null);
    }
  };
  return {
    at,
    cancel: (): void => stop.current?.abort(),
    /** Sends files one after the other. */
    send: (files: readonly File[]): Promise<SentFile[]> =>
      whileAt(async (signal) => {
        const sent: SentFile[] = [];
        const total = files.reduce((sum, { size }) => sum + size, 0);
        let before = 0;
        for (const file of files) {
          const tell = (share: number): void =>
            setAt({
              words: `Sending ${file.name} …`,
              share: total === 0 ? null : (before + share * file.size) / total,
            });
          tell(0);
          try {
            sent.push(await sendFile(file, tell, signal));
          } catch (reason) {
            if (reason instanceof RequestError)
              throw new RequestError(reason.status, reason.code, `${file.name}: ${reason.message}`);
            throw reason;
          }
          before += file.size;
        }
        return sent;
      }),
    /** Has uploaded files looked at or taken in. */
    take: (words: string, body: Record<string, unknown>): Promise<Answer<'intake'>> =>
      whileAt(async (signal) => {
        const job = crypto.randomUUID();
        setAt({ words, share: null });
        // an answer on how far it is may come in after the last word
        let over = false;
        const timer = setInterval(() => {
          read<'intakeJob'>(`/api/intake/jobs/${job}`)
            .then(({ file, rows, share }) => {
              if (file !== '' && !over)
                setAt({ words: `${words} ${file}${rows > 0 ? `, ${rows} rows` : ''}`, share });
            })
            .catch(() => undefined);
        }, askEveryMs);
        const callOff = (): void => {
          void write<'cancelIntake'>(`/api/intake/jobs/${job}/cancel`, {}).catch(() => undefined);
        };
        signal.addEventListener('abort', callOff, { once: true });
        try {
          return await write<'intake'>('/api/intake', { ...body, job });
        } catch (reason) {
          if (reason instanceof RequestError && reason.code === 'cancelled') throw new CalledOff();
          throw reason;
        } finally {
          over = true;
          clearInterval(timer);
        }
      }),
  };
}
