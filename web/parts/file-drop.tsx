// A place where a file is dropped or chosen.

import { useState } from "preact/hooks";

export interface FileDropProps {
  readonly label: string;
  /** File name endings and media types to choose from. */
  readonly accept: string;
  readonly take: (file: File | undefined) => void;
}

export function FileDrop({ label, accept, take }: FileDropProps) {
  const [isOver, setOver] = useState(false);
  return (
    <label
      class={`drop ${isOver ? "over" : ""}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take(event.dataTransfer?.files[0]);
      }}
    >
      {label}
      <input type="file" accept={accept} onChange={(event) => take(event.currentTarget.files?.[0])} />
    </label>
  );
}
