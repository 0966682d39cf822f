// A process in which the built command is called again and again: the engine is warm from the second call on.
// A mutated command stands in another place.
const { call } = await import(process.env.AXLEWATT_COMMAND ?? new URL('../dist/cli/main.mjs', import.meta.url).href);

/** What was said since the last call. */
const said = { out: '', err: '' };
for (const [stream, name] of [
  [process.stdout, 'out'],
  [process.stderr, 'err'],
]) {
  stream.write = text => {
    said[name] += text;
    return true;
  };
}

process.on('message', async ({ folder, args }) => {
  process.chdir(folder);
  said.out = '';
  said.err = '';
  const code = await call(args, 100);
  process.send({ code, ...said });
});
// Whoever asked is gone.
process.on('disconnect', () => process.exit());
process.send('ready');
