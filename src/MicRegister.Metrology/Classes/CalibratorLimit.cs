using System.Globalization;

namespace MicRegister.Metrology.Classes;

/// <summary>A limit of a class of sound calibrators, of one quantity in one range of nominal frequencies.</summary>
/// <param name="Edition">Year of the edition of IEC 60942.</param>
/// <param name="Quantity">level, fluctuation, frequency or distortion.</param>
/// <param name="Unit">dB of a level and its fluctuation, % of a frequency and of distortion.</param>
/// <param name="Class">LS, 1 or 2.</param>
/// <param name="Limit">Greatest deviation from the nominal value, or greatest fluctuation or distortion; inclusive.</param>
/// <param name="GreatestExpanded">
/// Greatest expanded uncertainty at a coverage of 95 % with which it may be judged, in <paramref name="Unit"/>; null where there is none.
/// </param>
/// <param name="HoldsUncertainty">Whether the uncertainty of the measurement counts against the limit, as in 2003.</param>
/// <param name="Mark">Where the figures come from, in words.</param>
public sealed record CalibratorLimit(
    int Edition, string Quantity, string Unit, string Class, double Limit, double? GreatestExpanded, bool HoldsUncertainty, string Mark)
{
    private const string Transcribed = "as a public library transcribes the standard's tables; not compared with the printed standard";
    private const string Memory = "from memory, unchecked";

    private static readonly string[] Classes = ["LS", "1", "2"];

    private static readonly IReadOnlyList<Row> Rows = [.. Lines().Select(Read)];

    /// <summary>Years of the editions that there are limits of.</summary>
    public static IReadOnlyList<int> Known { get; } = [.. Rows.Select(r => r.Edition).Distinct().Order()];

    /// <summary>The limit of a class.</summary>
    /// <param name="edition">Year of the edition.</param>
    /// <param name="quantity">level, fluctuation, frequency or distortion.</param>
    /// <param name="name">LS, 1 or 2.</param>
    /// <param name="nominalHz">Nominal frequency in Hz; the edges of a range belong to it as the table says.</param>
    /// <returns>Null where the table has none, which is not the same as none being asked.</returns>
    public static CalibratorLimit? Find(int edition, string quantity, string name, double nominalHz)
    {
        var at = Array.IndexOf(Classes, name);
        var row = Rows.FirstOrDefault(r => r.Edition == edition && r.Quantity == quantity && r.Covers(nominalHz));
        if (at < 0 || row?.Limits[at] is not { } limit) return null;
        var isOld = row.Edition < 2017;
        return new(edition, quantity, row.Unit, name, limit, row.Expanded[at], isOld, row.Mark == "transcribed" ? Transcribed : Memory);
    }

    /// <summary>Judges what was measured.</summary>
    /// <param name="deviation">Deviation from the nominal value, or the fluctuation or distortion itself, in the limit's unit.</param>
    /// <param name="expanded">Expanded uncertainty at k = 2 in the same unit; null where none was stated.</param>
    /// <returns>
    /// 2017: conforms where the deviation is at most the limit and the uncertainty at most the greatest allowed. 2003: where the deviation
    /// with the uncertainty added is at most the limit. A deviation beyond the limit itself never conforms. All else is not shown,
    /// what is no number as well.
    /// </returns>
    public LimitVerdict Judge(double deviation, double? expanded)
    {
        var size = Math.Abs(deviation);
        if (double.IsNaN(size)) return LimitVerdict.NotShown;
        if (!Conformity.DecisionLimit.AtMost(size, Limit)) return LimitVerdict.Exceeds;
        if (HoldsUncertainty)
            return expanded is { } u && Conformity.DecisionLimit.AtMost(size + u, Limit) ? LimitVerdict.Conforms : LimitVerdict.NotShown;
        return GreatestExpanded is not { } most || (expanded is { } known && Conformity.DecisionLimit.AtMost(known, most))
            ? LimitVerdict.Conforms
            : LimitVerdict.NotShown;
    }

    private static IEnumerable<string> Lines()
    {
        using var stream = typeof(CalibratorLimit).Assembly.GetManifestResourceStream("calibrator-limits.csv")
            ?? throw new InvalidOperationException("The table calibrator-limits.csv is not embedded.");
        using var reader = new StreamReader(stream);
        return [.. reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(l => l[0] != '#').Skip(1)];
    }

    private static Row Read(string line)
    {
        var c = line.TrimEnd('\r').Split(',');
        return new(
            int.Parse(c[0], CultureInfo.InvariantCulture), c[1], c[2], c[3], c[4],
            [Number(c[5]), Number(c[6]), Number(c[7])], [Number(c[8]), Number(c[9]), Number(c[10])], c[11]);
    }

    private static double? Number(string cell) =>
        cell.Length == 0 ? null : double.Parse(cell.TrimStart('<', '>'), CultureInfo.InvariantCulture);

    private sealed record Row(
        int Edition, string Quantity, string Unit, string From, string To, double?[] Limits, double?[] Expanded, string Mark)
    {
        private readonly double _from = Number(From)!.Value;
        private readonly double _to = Number(To)!.Value;

        public bool Covers(double hz) => (From[0] == '>' ? hz > _from : hz >= _from) && (To[0] == '<' ? hz < _to : hz <= _to);
    }
}

/// <summary>Whether something measured keeps a limit.</summary>
public enum LimitVerdict
{
    Conforms,

    /// <summary>Within the limit, but too uncertain to say so, or the uncertainty was not stated.</summary>
    NotShown,

    /// <summary>Beyond the limit.</summary>
    Exceeds,
}
