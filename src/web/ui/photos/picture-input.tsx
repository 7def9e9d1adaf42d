import { useId } from 'preact/hooks';
import { useWords } from '../../words/words.ts';

const KINDS = 'image/jpeg,image/png,image/webp';

/** Two buttons: the camera of the device, and the pictures that are on it. */
export function PictureInput({ onPictures }: { onPictures: (files: readonly File[]) => void }) {
  const { say } = useWords();
  return (
    <div class="row picture-input">
      <OneInput label={say('photos.take')} camera onPictures={onPictures} />
      <OneInput label={say('photos.choose')} onPictures={onPictures} />
    </div>
  );
}

function OneInput({
  label,
  camera = false,
  onPictures,
}: {
  label: string;
  camera?: boolean;
  onPictures: (files: readonly File[]) => void;
}) {
  const id = useId();
  return (
    <span class="picture-button">
      <input
        id={id}
        type="file"
        class="visually-hidden"
        accept={KINDS}
        {...(camera ? { capture: 'environment' as const } : { multiple: true })}
        onChange={(event) => {
          const { currentTarget } = event;
          onPictures([...(currentTarget.files ?? [])]);
          // The same picture may be chosen again.
          currentTarget.value = '';
        }}
      />
      <label for={id} class="button">
        {label}
      </label>
    </span>
  );
}
