using MicRegister.Metrology.Quantities;
using MicRegister.Register.Checks;

namespace MicRegister.Register.Tracing;

/// <summary>Whether what its certificates rest on was certified too.</summary>
internal static class CertificateQuestions
{
    // Stored figures are rounded to a millionth of a decibel.
    private const double FigureDb = 1e-5;

    public static IEnumerable<TraceReason> NoCertificate(TracedChain c) => c.Links
        .Where(l => l.Certificate is null && l.Depth > 0)
        .Select(l => new TraceReason(
            TraceVerdict.NotValid, $"{l.Device.Name} had no certificate on {l.Day:yyyy-MM-dd}.", "no certificate"));

    /// <summary>A late certificate does not reach into a check that was worked out before it: the figure rests on the older one.</summary>
    public static IEnumerable<TraceReason> Superseded(TracedChain c)
    {
        foreach (var (check, bases) in c.Checks.Zip(c.Bases))
        {
            var word = ReferenceEquals(check, c.Before) ? "before" : "after";
            foreach (var basis in bases.Where(b => b.IsSuperseded)) yield return Superseded(check, basis, word);
        }
    }

    /// <summary>What came from elsewhere may state a level that its own readings and certificates do not give.</summary>
    public static IEnumerable<TraceReason> Figures(TracedChain c)
    {
        foreach (var (check, bases) in c.Checks.Zip(c.Bases))
        {
            var word = ReferenceEquals(check, c.Before) ? "before" : "after";
            foreach (var basis in bases)
            {
                if (basis.StatedDb is not { } stated || Math.Abs(stated - basis.UsedDb) <= FigureDb) continue;
                yield return new(
                    TraceVerdict.NotValid,
                    $"The check {word} takes {QuantityText.Of(basis.UsedDb, "dB", 3)} from a certificate of {basis.Device?.Name} "
                        + $"that states {QuantityText.Of(stated, "dB", 3)}.",
                    $"facts {check.Fact}, {basis.Used!.Fact}");
            }
            if (CheckFigures.Misfit(check.Check) is { } misfit)
                yield return new(TraceVerdict.NotValid, $"The check {word} does not follow from what was read: {misfit}.", $"fact {check.Fact}");
        }
    }

    private static TraceReason Superseded(CheckRecord check, CheckBasis basis, string word)
    {
        var used = basis.Used is { } known ? $"that of {known.Day:yyyy-MM-dd}" : "one that is not in the register";
        var how = basis.IsOfCalibrator ? "takes its level from" : "is held against";
        var by = QuantityText.Change(basis.DifferenceDb!.Value, "dB", 3)
            + (Math.Abs(basis.DifferenceDb!.Value) < 1e-6 ? " with another uncertainty, pressure or frequency" : "");
        return new(
            TraceVerdict.Doubtful,
            $"The check {word} {how} a certificate of {basis.Device?.Name} that is in force no longer, {used}; "
                + $"the one in force, of {basis.InForce!.Day:yyyy-MM-dd}, says {by}. Work the check out again.",
            $"facts {check.Fact}, {basis.InForce.Fact}");
    }
}
