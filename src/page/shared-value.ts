// A value outside of components that some of them show: when it is set, they are drawn again.

import { useEffect, useRef, useState } from "preact/hooks";

export interface SharedValue<T> {
  readonly get: () => T;
  readonly set: (value: T) => void;
  /** The value for a component, which is drawn again when it is set. */
  readonly use: () => T;
  /** A part of the value for a component, which is drawn again only when that part is another. */
  readonly usePart: <Part>(part: (value: T) => Part) => Part;
}

export function sharedValue<T>(value: T): SharedValue<T> {
  const listeners = new Set<() => void>();
  function usePart<Part>(part: (whole: T) => Part): Part {
    const [, redraw] = useState(0);
    const shown = useRef<Part>(undefined as Part);
    shown.current = part(value);
    useEffect(() => {
      const listener = () => {
        if (!Object.is(part(value), shown.current)) redraw((n) => n + 1);
      };
      listeners.add(listener);
      // it may have been set between the drawing and now
      listener();
      return () => void listeners.delete(listener);
    }, []);
    return shown.current;
  }
  return {
    get: () => value,
    set: (next) => {
      value = next;
      listeners.forEach((listener) => listener());
    },
    use: () => usePart((whole) => whole),
    usePart,
  };
}
