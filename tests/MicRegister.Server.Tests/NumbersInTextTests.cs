using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace MicRegister.Server.Tests;

/// <summary>
/// What people read of decibels, millivolts and kilopascals is written in one place, <c>QuantityText</c>, and nowhere else.
/// </summary>
public sealed partial class NumbersInTextTests
{
    [Fact]
    public void No_page_or_finding_formats_a_quantity_by_itself()
    {
        var sources = Sources().ToList();
        var found = sources.SelectMany(f => Own(File.ReadAllLines(f.Path)).Select(n => $"{f.Name}: {n}")).ToList();

        Assert.Contains(sources, f => f.Name == "MicRegister.Metrology/Quantities/QuantityText.cs");
        Assert.Contains(sources, f => f.Name.EndsWith(".razor", StringComparison.Ordinal));
        Assert.True(found.Count == 0, $"{found.Count} numbers; ask QuantityText instead:\n" + string.Join('\n', found));
    }

    [Theory]
    [InlineData("""$"it is {off:+0.00;-0.00} dB off" """, 1)]
    [InlineData("""$"{level:0.000} dB, U = {u:0.###} dB" """, 2)]
    [InlineData("""<td>@db.ToString("+0.000;-0.000;0.000", Culture)</td>""", 1)]
    [InlineData("""$"{p:0.0} kPa at {mv:0.###} mV/Pa" """, 2)]
    [InlineData("""$"{QuantityText.Of(level, "dB", 3)} re 1 V/Pa" """, 0)]
    [InlineData("""$"{station}: {n} dB" """, 0)]
    [InlineData("""$"{at:HH:mm} dB" """, 0)]
    [InlineData("""$"{hz:0.#} Hz within ±{limit} dB" """, 0)]
    [InlineData("/// <remarks>{x:0.00} dB</remarks>", 0)]
    public void It_finds_numbers_and_nothing_else(string line, int times) => Assert.Equal(times, Own([line]).Count());

    private static IEnumerable<string> Own(IEnumerable<string> lines) =>
        lines.Where(l => !l.TrimStart().StartsWith("//", StringComparison.Ordinal))
            .SelectMany(l => Formatted().Matches(l).Select(m => m.Value));

    private static IEnumerable<(string Name, string Path)> Sources()
    {
        var root = Root();
        return Directory.EnumerateFiles(root, "*.*", SearchOption.AllDirectories)
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith(".razor", StringComparison.Ordinal))
            .Select(f => (Path.GetRelativePath(root, f).Replace(Path.DirectorySeparatorChar, '/'), f))
            .Where(f => !f.Item1.Contains("/obj/", StringComparison.Ordinal) && !f.Item1.Contains("/bin/", StringComparison.Ordinal));
    }

    private static string Root([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "src"));

    // A number's format within an interpolation and a unit behind it, or a format of its own for each sign.
    [GeneratedRegex("\\{[^{}]*:[+-]?[0#][0#.,+;−-]*\\}\\s*(dB|kPa|mV/Pa|°C)|\"\\+ ?0[.0#]*;[^\"]*\"")]
    private static partial Regex Formatted();
}
