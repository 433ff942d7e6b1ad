declare module "*.css";
/** The address of a script that runs in a thread of the browser's own, built by itself. */
declare module "*?worker&url" {
  const address: string;
  export default address;
}
