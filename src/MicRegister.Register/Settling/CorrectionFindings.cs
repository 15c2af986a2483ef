using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Register.Settling;

/// <summary>What people should settle in the facts themselves: rivals, circles, replacements that do not fit, clocks.</summary>
internal static class CorrectionFindings
{
    public static IReadOnlyList<RegisterFinding> Of(Register register)
    {
        var corrections = register.Corrections.Worked(() => OfCorrections(register));
        var clocks = register.State.Clocks.Where(c => Math.Abs(c.OffsetMs) > RegisterState.ClockTolerance.TotalMilliseconds)
            .Select(c => new RegisterFinding(
                "clock-off", [Subject.TheRegister],
                $"The clock of {c.Client} was off by {c.OffsetMs / 1000} s; its facts are ordered by the corrected time.", []));
        return [.. corrections, .. clocks];
    }

    // Facts are read only where there is something to say of them.
    private static List<RegisterFinding> OfCorrections(Register register)
    {
        var (corrections, catalog) = (register.Corrections, register.Catalog);
        var highest = new Dictionary<(FactId Target, string Kind), FactId>();
        var pointers = corrections.Pointers
            .Select(p => (Sequence: p.Key, Pointer: p.Value, Id: catalog.Id(p.Key), Kind: catalog.Kind(p.Key))).OrderBy(p => p.Id).ToList();
        foreach (var (_, pointer, id, kind) in pointers) highest[(pointer.Target, kind)] = id;

        var findings = new List<RegisterFinding>();
        foreach (var (sequence, pointer, id, kind) in pointers)
        {
            string[] facts = [id.ToString(), pointer.Target.ToString()];
            if (corrections.IsInCycle(sequence))
                Say("correction-circle", "A chain of annulments or replacements leads back to itself; none of it counts.");
            else if (pointer.At != 0 && !corrections.Fits(sequence, catalog, register.Source))
                Say("replacement-unfit", "A replacement has another kind or other subjects than the fact it points at; it does not count.");
            else if (highest[(pointer.Target, kind)] > id && register.Source.Read(sequence).Replaces is not null)
                Say("replaced-twice", "One fact was replaced twice; the replacement with the higher id counts.");

            void Say(string rule, string text) => findings.Add(new(rule, register.Source.Read(sequence).Subjects, text, facts));
        }
        return findings;
    }
}
