// What another language must have: the shape of the English words, whatever they say.

/** `T` with every literal text in it widened to any text, and every list to any length. */
export type Widened<T> = T extends string
  ? string
  : T extends (...given: infer Given) => infer Said
    ? (...given: Given) => Widened<Said>
    : T extends readonly (infer Item)[]
      ? readonly Widened<Item>[]
      : T extends object
        ? { readonly [Key in keyof T]: Widened<T[Key]> }
        : T;
