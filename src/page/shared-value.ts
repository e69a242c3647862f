// A value outside of components that some of them show: when it is set, they are drawn again.

import { useEffect, useState } from "preact/hooks";

export interface SharedValue<T> {
  readonly get: () => T;
  readonly set: (value: T) => void;
  /** The value for a component, which is drawn again when it is set. */
  readonly use: () => T;
}

export function sharedValue<T>(value: T): SharedValue<T> {
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      value = next;
      listeners.forEach((listener) => listener());
    },
    use: () => {
      const [, redraw] = useState(0);
      const drawn = value;
      useEffect(() => {
        const listener = () => redraw((n) => n + 1);
        listeners.add(listener);
        // it may have been set between the drawing and now
        if (value !== drawn) listener();
        return () => void listeners.delete(listener);
      }, []);
      return value;
    },
  };
}
