using System.Globalization;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>How far a response from an angle may lie from that at 0°, as a document prints it: by nominal third octave and angle.</summary>
/// <remarks>
/// Between two angles of the table, and between 0° and the first, the limit of the greater angle holds (IEC 61265:1995, 4.4.2); beyond the
/// last angle there is none.
/// </remarks>
public sealed class AngleTable
{
    private readonly Dictionary<ThirdOctave, double[]> _limits;

    private AngleTable(string key, string name)
    {
        var rows = EmbeddedTable.Rows(name);
        const string Begin = "at_", End = "_deg_db";
        string[] columns = [.. rows[0].Keys.Where(k => k.StartsWith(Begin, StringComparison.Ordinal))];
        (Key, Source, Mark) = (key, EmbeddedTable.One(rows, "source"), EmbeddedTable.One(rows, "mark"));
        AnglesDeg = [.. columns.Select(c => double.Parse(c[Begin.Length..^End.Length], CultureInfo.InvariantCulture))];
        _limits = rows.ToDictionary(r => ResponseTable.Band(r["nominal_hz"]), r => columns.Select(c => EmbeddedTable.Db(r[c])).ToArray());
        Bands = [.. _limits.Keys.OrderBy(b => b.Index)];
    }

    /// <summary>Microphone systems for the noise certification of aircraft, IEC 61265:1995.</summary>
    public static AngleTable Of1995 { get; } = new("IEC 61265:1995", "iec61265-1995.csv");

    /// <summary>All tables.</summary>
    public static IReadOnlyList<AngleTable> All { get; } = [Of1995];

    /// <summary>The stored words of all tables.</summary>
    public static IReadOnlyList<string> Keys { get; } = [.. All.Select(t => t.Key)];

    /// <summary>The table of some stored words; null where there is none, also for another edition.</summary>
    public static AngleTable? Find(string? key) => All.FirstOrDefault(t => t.Key == key);

    /// <summary>Stored words, with the edition: never given another meaning.</summary>
    public string Key { get; }

    /// <summary>Document, edition and clause.</summary>
    public string Source { get; }

    /// <summary>How sure it is that the figures are the document's.</summary>
    public string Mark { get; }

    /// <summary>Its angles in °, in order.</summary>
    public IReadOnlyList<double> AnglesDeg { get; }

    /// <summary>Its bands, from the lowest to the highest.</summary>
    public IReadOnlyList<ThirdOctave> Bands { get; }

    /// <summary>The angle whose limit holds; null at 0°, which all is relative to, and beyond the last.</summary>
    /// <param name="angleDeg">Angle of incidence in °, 0 to 180.</param>
    public double? AngleThatHolds(double angleDeg)
    {
        if (!(angleDeg is >= 0 and <= 180))
            throw new ArgumentOutOfRangeException(nameof(angleDeg), angleDeg, "An angle of incidence lies from 0° to 180°.");
        return angleDeg == 0 ? null : AnglesDeg.Where(a => a >= angleDeg).Select(a => (double?)a).FirstOrDefault();
    }

    /// <summary>The limits of a band at an angle, on both sides of the response at 0°.</summary>
    /// <returns>Null where the table has none.</returns>
    public LimitStep? Of(ThirdOctave band, double angleDeg)
    {
        if (AngleThatHolds(angleDeg) is not { } angle || !_limits.TryGetValue(band, out var limits)) return null;
        var limit = limits[AnglesDeg.ToList().IndexOf(angle)];
        return new(band, -limit, limit, null);
    }
}
