using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Pages.Events;

/// <summary>Where the figures of a station in an event come from, for the page that shows them.</summary>
internal static class EventFigures
{
    private const string Gum = "JCGM 100:2008 (GUM), 5.1.2, 5.2.2, G.4.1: contributions of one source are summed with their signs, "
        + "sources in quadrature; k for 95 % by the effective degrees of freedom";

    private const string Decibel = "L = 20 lg(M / 1 V/Pa), so M = 10^(L/20) V/Pa";

    /// <summary>The sensitivity in mV/Pa.</summary>
    public static Derivation Millivolts(StationTrace station)
    {
        var a = station.Applied!;
        return new(
            $"Sensitivity of {station.Station}", QuantityText.Number(a.VoltsPerPascal * 1000, 3) + " mV/Pa", Decibel,
            [new("level L", Db(a.VoltsDb) + " dB re 1 V/Pa", "the sum of the terms that its own figure explains")], null,
            Facts(station), Doubt(a));
    }

    /// <summary>The sensitivity level in V/Pa.</summary>
    public static Derivation Volts(StationTrace station)
    {
        var a = station.Applied!;
        return new(
            $"Sensitivity level of {station.Station}",
            $"{Db(a.VoltsDb)} dB re 1 V/Pa, {WithFactor(a.ExpandedDb, a.CoverageFactor)}",
            $"the sum of its terms; {a.Rule.InWords} is applied", [.. a.Terms.Select(Input)], null, Facts(station), Doubt(a));
    }

    /// <summary>The sensitivity level in full scale/Pa.</summary>
    public static Derivation FullScale(StationTrace station)
    {
        var (a, full) = (station.Applied!, station.Applied!.InFullScale!);
        return new(
            $"Sensitivity level of {station.Station} as recorded",
            $"{Db(a.FullScaleDb!.Value)} dB re 1 FS/Pa, {WithFactor(full.ExpandedDb, full.CoverageFactor)}",
            "the level in V/Pa with what leads from volts to full scale",
            [new("level in V/Pa", Db(a.VoltsDb) + " dB", "the sum of the terms that its own figure explains"),
                .. a.FullScaleTerms.Select(Input)],
            null, Facts(station), Doubt(a));
    }

    /// <summary>The expanded uncertainty of sensitivity, mount and direction, in V/Pa.</summary>
    public static Derivation Uncertainty(StationTrace station)
    {
        var a = station.Applied!;
        return new(
            $"U of {station.Station}", $"{Expanded(a.ExpandedDb)} dB",
            $"U = k u = {QuantityText.Number(a.CoverageFactor, 2)} · {QuantityText.Number(a.StandardDb, 4)} dB, u² = Σ uᵢ²",
            [.. a.Sources.GroupBy(s => s.Source).Select(g => new DerivationInput(
                "u of " + g.First().Name, QuantityText.Number(Math.Abs(g.Sum(s => s.ContributionDb)), 4) + " dB", g.Key))],
            Gum, Facts(station), Doubt(a));
    }

    private static DerivationInput Input(CheckTerm term) =>
        new(term.Name, Db(term.ValueDb) + " dB", term.Source + (term.Remark is { } remark ? "; " + remark : ""));

    private static IReadOnlyList<DerivationFact> Facts(StationTrace station) =>
        [.. station.Links.Select(link => new DerivationFact(TraceWords.Of(link), "devices/" + link.Device.Id))];

    // What stands beside the verdict stands beside each figure as well.
    private static string? Doubt(AppliedSensitivity applied)
    {
        List<string> all = [.. new[] { applied.UncertaintyNote, applied.Caution, applied.GainCaution }.OfType<string>()];
        return all.Count == 0 ? null : string.Join(" ", all);
    }

    private static string WithFactor(double expandedDb, double k) => $"U = {Expanded(expandedDb)} dB (k = {QuantityText.Number(k, 2)})";

    private static string Db(double db) => QuantityText.Number(db, 3);

    private static string Expanded(double db) => QuantityText.Expanded(db, "dB");
}
