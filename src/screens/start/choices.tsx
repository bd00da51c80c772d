import type { ReactNode } from 'react';

export interface Choice { readonly value: string; readonly words: string; readonly disabled?: boolean }

/** One of a few, as large targets. */
export function Choices({ name, legend, choices, value, onChange }: { name: string; legend: string; choices: readonly Choice[]; value: string; onChange: (value: string) => void }): ReactNode {
  return (
    <fieldset className="field">
      <legend>{legend}</legend>
      <div className="choices">
        {choices.map((choice) => (
          <label key={choice.value} className="choice">
            <input type="radio" name={name} value={choice.value} checked={value === choice.value} disabled={choice.disabled ?? false} onChange={() => onChange(choice.value)} />
            <span>{choice.words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

