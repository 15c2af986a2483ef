using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>What an automatic reader of the guidelines finds on a page as it stands.</summary>
internal static class Accessibility
{
    private static readonly Lazy<string> Reader = new(() => new BundledAxeScriptProvider().GetScript());

    /// <summary>Its findings, one a line.</summary>
    /// <param name="page">The page.</param>
    /// <param name="what">What the page is called in a finding.</param>
    /// <param name="tags">Rules of these tags alone; none takes all that run by default.</param>
    public static async Task<IReadOnlyList<string>> Findings(IPage page, string what, params string[] tags)
    {
        Assert.Single(page.Frames); // a page within the page would have to be read by itself
        if (!await page.EvaluateAsync<bool>("() => 'axe' in window")) await page.EvaluateAsync(Reader.Value + "\n;0");
        // Of what is in order only an example is told: thousands of table cells would be described otherwise.
        var options = new Dictionary<string, object> { ["resultTypes"] = new[] { "violations" } };
        if (tags.Length > 0) options["runOnly"] = new Dictionary<string, object> { ["type"] = "tag", ["values"] = tags };
        var (read, found) = await Read(page, options);
        Assert.True(read > 10, $"{what}: only {read} rules were looked at");
        return [.. found.Select(f => $"{what}: {f}")];
    }

    private static async Task<(int Rules, string[] Findings)> Read(IPage page, Dictionary<string, object> options)
    {
        var said = await page.EvaluateAsync<string[]>("""
            async options => {
              // A colour on its way from light to dark is neither; what spins for ever is not waited for.
              const moving = () => document.getAnimations().filter(a => a.playState === 'running' && Number.isFinite(a.effect?.getComputedTiming().endTime));
              await new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)));
              const late = performance.now() + 3000; // a tab that is not in front may hold one for ever
              while (moving().length > 0 && performance.now() < late) await new Promise(next => setTimeout(next, 30));
              const { violations, passes } = await axe.run(document, options);
              const told = violations.map(v => `${v.id} (${v.help}): ${v.nodes.slice(0, 3).map(n => n.html).join(' | ')}`);
              return [String(violations.length + passes.length), ...told];
            }
            """, options);
        return (int.Parse(said[0], System.Globalization.CultureInfo.InvariantCulture), said[1..]);
    }
}
