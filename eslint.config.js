import tseslint from "typescript-eslint";

export default tseslint.config(
  {
    ignores: [
      "dist",
      "node_modules",
      "src/tablebase/kernel",
      "src/pgn/scan/kernel",
      "src/geometry/kernel",
      "src/query/engine/kernel",
      "src/geometry/portable/types.d.ts",
    ],
  },
  ...tseslint.configs.strict,
  {
    rules: {
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/consistent-type-imports": "error",
      eqeqeq: "error",
      "prefer-const": "error",
      "no-console": "error",
    },
  },
);
