/** A YAML file that is carried along as text: the standard packs and what `init` writes. */
declare module '*.yaml' {
  const text: string;
  export default text;
}
