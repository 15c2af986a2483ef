using MicRegister.Register.Facts;
using MicRegister.Register.Fold;
using MicRegister.Register.Settings;

namespace MicRegister.Register.Settling;

/// <summary>What people should settle in the facts themselves: rivals, circles, replacements that do not fit, clocks.</summary>
internal static class CorrectionFindings
{
    public static IReadOnlyList<RegisterFinding> Of(Register register)
    {
        var (corrections, catalog) = (register.Corrections, register.Catalog);
        var findings = new List<RegisterFinding>();
        foreach (var (pointer, target) in corrections.TargetOf.OrderBy(p => catalog.Id(p.Key)))
        {
            var fact = register.Source.Read(pointer);
            var at = register.Find(target);
            string[] facts = [fact.Id.ToString(), target.ToString()];
            if (corrections.IsInCycle(pointer, catalog))
                findings.Add(new("correction-circle", fact.Subjects, "A chain of annulments or replacements leads back to itself; none of it counts.", facts));
            else if (at != 0 && !Corrections.Fits(pointer, at, catalog, register.Source))
                findings.Add(new("replacement-unfit", fact.Subjects, "A replacement has another kind or other subjects than the fact it points at; it does not count.", facts));
            else if (fact.Replaces is not null && corrections.PointersAt[target].Any(r => r != pointer && catalog.Kind(r) == fact.Kind && catalog.Id(r) > fact.Id))
                findings.Add(new("replaced-twice", fact.Subjects, "One fact was replaced twice; the replacement with the higher id counts.", facts));
        }
        foreach (var clock in register.State.Clocks.Where(c => Math.Abs(c.OffsetMs) > RegisterState.ClockTolerance.TotalMilliseconds))
            findings.Add(new("clock-off", [Subject.TheRegister], $"The clock of {clock.Client} was off by {clock.OffsetMs / 1000} s; its facts are ordered by the corrected time.", []));
        return findings;
    }
}
