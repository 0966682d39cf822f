// Takes the place of the package string-width inside the command line, where yargs measures help texts with it. The
// package prepares the widths of all of Unicode when it is loaded, which made `--help` take 2.1 times an empty script
// instead of 1.4. Our help texts are ASCII (a test says so), where a character is a column.
export default function stringWidth(text) {
  return text.length;
}
