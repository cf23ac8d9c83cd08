import { useEffect, useRef, useState } from 'preact/hooks';
import { Notice } from './notice.tsx';

interface Detected {
  readonly rawValue: string;
}
interface Detector {
  detect(source: HTMLVideoElement): Promise<readonly Detected[]>;
}
type DetectorMaker = new (options?: { formats: readonly string[] }) => Detector;

/** Codes that stand on doors, key tags and VIN plates. */
const formats = ['code_39', 'code_128', 'data_matrix', 'qr_code'] as const;
const lookEveryMs = 200;

const detectorMaker = (): DetectorMaker | null =>
  (window as unknown as { BarcodeDetector?: DetectorMaker }).BarcodeDetector ?? null;

/** Whether this browser reads codes and may use a camera here. */
const canScan = (): boolean => detectorMaker() !== null && 'mediaDevices' in navigator;

function cameraFault(reason: unknown): string {
  const name = reason instanceof DOMException ? reason.name : '';
  if (name === 'NotAllowedError')
    return 'The camera may not be used here. Allow it in the settings of this page, or type the number.';
  if (name === 'NotFoundError') return 'There is no camera on this device. Type the number.';
  return 'The camera does not start. Close other programs that use it, or type the number.';
}

/** Reads a code with the camera where the browser can; `onRead` gets its text and says whether it named a unit. */
export function ScanUnit({ onRead }: { onRead: (text: string) => boolean }) {
  const view = useRef<HTMLVideoElement>(null);
  const [looking, setLooking] = useState(false);
  const [words, setWords] = useState<string | null>(null);
  const read = useRef(onRead);
  read.current = onRead;
  useEffect(() => {
    const Maker = detectorMaker();
    if (!looking || Maker === null) return undefined;
    let wanted = true;
    let stream: MediaStream | null = null;
    let timer = 0;
    const detector = new Maker({ formats });
    const look = async (): Promise<void> => {
      const shown = view.current;
      if (!wanted || shown === null) return;
      const found = shown.readyState < 2 ? [] : await detector.detect(shown).catch(() => []);
      const text = found[0]?.rawValue.trim() ?? '';
      if (text !== '' && read.current(text)) setLooking(false);
      else if (text !== '') setWords(`“${text}” is no unit’s number or VIN on record.`);
      if (wanted) timer = window.setTimeout(() => void look(), lookEveryMs);
    };
    navigator.mediaDevices
      .getUserMedia({ video: { facingMode: 'environment' } })
      .then(async (given) => {
        stream = given;
        if (!wanted || view.current === null) return given.getTracks().forEach((track) => track.stop());
        view.current.srcObject = given;
        await view.current.play();
        return look();
      })
      .catch((reason: unknown) => {
        setLooking(false);
        setWords(cameraFault(reason));
      });
    return () => {
      wanted = false;
      clearTimeout(timer);
      stream?.getTracks().forEach((track) => track.stop());
    };
  }, [looking]);
  if (!canScan())
    return (
      <p class="muted">This browser reads no codes: type the number, or the last characters of the VIN.</p>
    );
  return (
    <div class="find-scan">
      {looking && <video class="camera" ref={view} muted playsInline aria-label="What the camera sees" />}
      <button
        type="button"
        class={looking ? undefined : 'main'}
        onClick={() => {
          setWords(null);
          setLooking(!looking);
        }}
      >
        {looking ? 'Stop the camera' : 'Scan number or VIN'}
      </button>
      {words !== null && <Notice kind="hint" words={words} />}
    </div>
  );
}
