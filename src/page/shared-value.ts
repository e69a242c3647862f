// Something outside of components that some of them show: whoever changes it says so, and they are drawn anew.

import { useEffect, useState } from "preact/hooks";

/** A thing that is shared: `tell` says that it has changed, `use` watches it from a component. */
export function shared(): { readonly tell: () => void; readonly use: () => void } {
  const listeners = new Set<() => void>();
  return {
    tell: () => listeners.forEach((listener) => listener()),
    use: () => {
      const [, set] = useState(0);
      useEffect(() => {
        const listener = () => set((n) => n + 1);
        listeners.add(listener);
        return () => void listeners.delete(listener);
      }, []);
    },
  };
}
