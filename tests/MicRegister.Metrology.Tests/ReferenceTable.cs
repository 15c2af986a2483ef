using System.Globalization;

namespace MicRegister.Metrology.Tests;

/// <summary>Reads the small tables in Reference, which are copied beside the test program.</summary>
internal static class ReferenceTable
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string name)
    {
        var lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Reference", name));
        var head = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => head.Zip(line.Split(',')).ToDictionary(p => p.First, p => p.Second))];
    }

    public static double[] Column(string name, string column) => [.. Rows(name).Select(r => Number(r[column]))];

    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
