using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests;

/// <summary>Invented response curves for tests, each under a SHA-256 of its own.</summary>
internal static class Curved
{
    /// <summary>0 dB at every nominal band from 10 Hz to 20 kHz.</summary>
    public static readonly string Flat = new('1', 64);

    /// <summary>The same, but 1.25 dB up at 1 kHz.</summary>
    public static readonly string High = new('2', 64);

    /// <summary>0 dB without an uncertainty.</summary>
    public static readonly string Bare = new('3', 64);

    /// <summary>By angle: 0 dB at 0° and 30°.</summary>
    public static readonly string Even = new('4', 64);

    /// <summary>By angle: at 30° 0.75 dB down at 1 kHz, where 0.5 dB are allowed.</summary>
    public static readonly string Uneven = new('5', 64);

    /// <summary>One curve at 30° alone.</summary>
    public static readonly string Aside = new('6', 64);

    /// <summary>0 dB, but 30 dB down at 1 kHz: no capsule does so in any field.</summary>
    public static readonly string Dead = new('7', 64);

    /// <summary>0 dB, but 12.7 dB up at 1 kHz.</summary>
    public static readonly string Lifted = new('8', 64);

    private static readonly Dictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> Files = new()
    {
        [Flat] = [(null, Curve())],
        [High] = [(null, Curve(1.25))],
        [Bare] = [(null, Curve(0, null))],
        [Even] = [(0, Curve()), (30, Curve())],
        [Uneven] = [(0, Curve()), (30, Curve(-0.75))],
        [Dead] = [(null, Curve(-30))],
        [Lifted] = [(null, Curve(12.7))],
        [Aside] = [(30, Curve())],
    };

    public static CurveReader Read { get; } = Files.GetValueOrDefault;

    public static ResponseCurve Curve(double at1kHz = 0, double? expandedDb = 0.1) =>
        new([.. ThirdOctave.Between(10, 20_000).Select(b => new CurvePoint(b.NominalHz, b.Index == 0 ? at1kHz : 0, expandedDb))]);

    /// <summary>A certificate of a response with a curve, relative to 250 Hz.</summary>
    public static Fact Certified(string device, string sha, string? field = "pressure", string day = "2026-03-20", double? angleDeg = null) => Make.Of(
        Make.Issued(0, 0.1, "response", "dB") with { Curve = sha, Field = field, AngleDeg = angleDeg }, day, "device:" + device);

    /// <summary>A built-in profile that also asks for limits of responses.</summary>
    public static Fact Asking(string profile, params (string Key, string Table)[] limits)
    {
        var written = BuiltInProfiles.Find(profile)!.Written;
        return Make.Of(
            written with { Limits = [.. written.Limits, .. limits.Select(l => new ProfileLimit(l.Key, null, l.Table, "own", "own"))] },
            "2026-01-01", "profile:" + profile);
    }

    /// <summary>Stored words of class 1.</summary>
    public static string Class1 => ResponseTable.Class1Of2013.Key;
}
