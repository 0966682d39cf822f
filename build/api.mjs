// Writes the public interface down, a file a door, in docs/api; with --check it fails where one differs, and says in what. Needs `npm run build`.
import { mkdirSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Extractor, ExtractorConfig, ExtractorLogLevel } from '@microsoft/api-extractor';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const check = process.argv.includes('--check');
const reports = join(root, 'docs/api');
mkdirSync(reports, { recursive: true });

const doors = readdirSync(join(root, 'src/doors')).map(name => name.replace(/\.ts$/u, ''));
const entries = [['axlewatt', 'index'], ...doors.map(door => [`axlewatt-${door}`, `doors/${door}`])];
let stale = false;
for (const [name, entry] of entries) {
  const config = ExtractorConfig.prepare({
    configObject: {
      projectFolder: root,
      mainEntryPointFilePath: join(root, `dist/lib/${entry}.d.ts`),
      compiler: {
        overrideTsconfig: {
          compilerOptions: {
            module: 'nodenext',
            moduleResolution: 'nodenext',
            target: 'es2022',
            lib: ['es2023'],
            types: ['node'],
            skipLibCheck: true,
            strict: true,
          },
          files: [join(root, `dist/lib/${entry}.d.ts`)],
        },
      },
      apiReport: {
        enabled: true,
        reportFolder: reports,
        reportTempFolder: join(root, 'dist/api'),
        reportFileName: `${name}.api.md`,
      },
      docModel: { enabled: false },
      dtsRollup: { enabled: false },
      tsdocMetadata: { enabled: false },
      messages: {
        compilerMessageReporting: { default: { logLevel: ExtractorLogLevel.Error } },
        // Types that a public one is made of may stay without a name of their own; comments are plain words.
        extractorMessageReporting: { default: { logLevel: ExtractorLogLevel.None } },
        tsdocMessageReporting: { default: { logLevel: ExtractorLogLevel.None } },
      },
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: join(root, 'package.json'),
  });
  const { succeeded, apiReportChanged } = Extractor.invoke(config, {
    localBuild: !check,
    messageCallback: message => {
      message.handled = message.logLevel !== ExtractorLogLevel.Error;
    },
  });
  if (!succeeded || (check && apiReportChanged)) {
    console.error(
      `docs/api/${name}.api.md is not what the package offers: run npm run api, and look at what has changed`,
    );
    stale = true;
  }
}
process.exitCode = stale ? 1 : 0;
