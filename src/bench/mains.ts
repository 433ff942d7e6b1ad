export { fitMains, leastDuration_s, type MainsFit, type MainsLine, type MainsOptions } from "./mains/fit.ts";
