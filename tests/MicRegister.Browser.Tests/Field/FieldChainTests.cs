namespace MicRegister.Browser.Tests.Field;

/// <summary>
/// Rules that the phone repeats, held to the same cases as the desk's (ChainCaseTests): chains.py, written by hand from the rules' texts.
/// </summary>
public sealed class FieldChainTests
{
    [Fact]
    public async Task The_phone_judges_chains_and_writes_figures_as_the_rules_say()
    {
        await using var desk = await DeskUnderTest.Open();
        var page = await (await desk.NewContext()).NewPageAsync();
        await page.GotoAsync("/field/");
        var cases = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "Field", "chains.json"),
            TestContext.Current.CancellationToken);

        var wrong = await page.EvaluateAsync<string[]>("""
            async text => {
              const { cases, figures } = JSON.parse(text);
              const { concernsOf, gapConcern } = await import('/field/judge.js');
              const { difference, expanded } = await import('/field/quantity.js');
              const wrong = [];
              const device = (kind, id, status = 'in-service', details = {}) =>
                ({ id, name: id, kind, kindLabel: kind, status, details, verdict: 'ready', isPlanned: true });
              const told = list => list.map(c => `${c.rule} ${c.gravity}`).sort().join(', ');
              for (const c of cases) {
                const parts = c.parts.map((p, i) => device(p.kind, 'D' + i, p.status, p.details));
                const usual = ['microphone', 'preamplifier', 'recorder-channel', ...(c.mount.endsWith('-plate') ? ['ground-plate'] : [])];
                // What is planned and was not scanned.
                const absent = usual.filter(k => !parts.some(p => p.kind === k)).map((k, i) => device(k, 'A' + i));
                const devices = [...parts, ...absent];
                const station = { name: 'S1', mount: c.mount, planned: devices.map(d => d.id) };
                const byId = new Map(devices.map(d => [d.id, d]));
                const kit = { today: '2026-06-01', campaign: { lastDay: '2026-06-10' }, stations: [station], devices, byId };
                const found = concernsOf(kit, {}, 'S1', parts.map(p => p.id));
                const limits = { gapMm: c.limits['gap-mm'], gapToleranceMm: c.limits['gap-tolerance-mm'] };
                const gap = gapConcern(limits, station, c.gapMm ?? undefined);
                if (told(gap ? [...found, gap] : found) !== told(c.phone))
                  wrong.push(`${c.name}: ${told(found)}, expected ${told(c.phone)}`);
              }
              for (const f of figures) {
                const is = `${difference(f.value, f.expanded)} ± ${expanded(f.expanded)}`;
                if (is !== `${f.difference} ± ${f.shown}`) wrong.push(`${f.value} ± ${f.expanded} reads ${is}`);
              }
              if (cases.length < 50 || figures.length < 10) wrong.push(`only ${cases.length} cases and ${figures.length} figures`);
              return wrong;
            }
            """, cases);

        Assert.True(wrong.Length == 0, string.Join("\n", wrong));
    }
}
