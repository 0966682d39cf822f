export function breaches(files: readonly { path: string; text: string }[]): string[];
export function sources(folder: string): { path: string; text: string }[];
export function circles(files: readonly { path: string; text: string }[]): string[];
export function engineFunctions(files: readonly { path: string; text: string }[]): string[];
