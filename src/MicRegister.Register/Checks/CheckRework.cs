using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>A check as it would come out by the certificates that are in force for its day now.</summary>
/// <param name="Record">The check as it stands.</param>
/// <param name="Superseded">Certificates that it was worked out from and that are in force no longer.</param>
/// <param name="Anew">As it would come out; null where that cannot be worked out.</param>
/// <param name="Why">Why it cannot; null where it can.</param>
public sealed record ReworkedCheck(CheckRecord Record, IReadOnlyList<CheckBasis> Superseded, ChainChecked? Anew, string? Why)
{
    /// <summary>By how much the chain's sensitivity would change, in dB; null where either is not known.</summary>
    public double? ChangeDb => Anew?.SensitivityDb - Record.Check.SensitivityDb;

    /// <summary>By how much the calibrator's level would change, in dB.</summary>
    public double? CalibratorChangeDb => Anew?.CalibratorDb - Record.Check.CalibratorDb;
}

/// <summary>Works checks out again from what was read then, by the certificates that are in force for their day now.</summary>
public static class CheckRework
{
    private const double SameDb = 1e-6;

    /// <summary>Those of some checks that rest on certificates that are in force no longer, with what would become of them.</summary>
    public static IReadOnlyList<ReworkedCheck> Of(Register register, IEnumerable<CheckRecord> checks)
    {
        var reworked = new List<ReworkedCheck>();
        foreach (var record in checks)
        {
            List<CheckBasis> superseded = [.. CheckBasis.Of(register, record).Where(b => b.IsSuperseded)];
            if (superseded.Count > 0) reworked.Add(Anew(register, record, superseded));
        }
        return reworked;
    }

    /// <summary>
    /// States checks anew as they come out now, each in the place of what was stated: all of them or none. They keep their instants, their
    /// readings and who made them.
    /// </summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="facts">Ids of the checks.</param>
    public static Result<IReadOnlyList<Fact>> State(Register register, Saying saying, IReadOnlyList<string> facts)
    {
        if (facts.Count is 0 or > CheckDecisions.MostAtOnce)
            return Saying.Invalid($"Checks: 1 to {CheckDecisions.MostAtOnce} are allowed, not {facts.Count}.");
        if (facts.GroupBy(f => f, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            return Saying.Invalid($"Check {twice.Key} is named twice.");
        var stated = new List<Fact>();
        foreach (var id in facts)
        {
            if (CorrectionDecisions.Find(register, id) is not { Body: ChainChecked } target) return CorrectionDecisions.Missing(id);
            if (!register.Counts(register.Find(target.Id)))
            {
                return new Rejection(
                    RejectionSort.Conflict, $"Check {id} does not count any more; another stands in its place or it was annulled.");
            }
            if (CheckBook.Find(register, target.Id) is not { } record) return Saying.Invalid($"Check {id} cannot be worked with.");
            if (Of(register, [record]) is not [var reworked])
                return new Rejection(RejectionSort.Conflict, $"Check {id} rests on the certificates in force: nothing would change.");
            if (reworked.Anew is not { } anew) return Saying.Invalid($"Check {id}: {reworked.Why}");
            if (stated.Count == 0 && saying.Changed(register, target.Subjects[0]) is { } changed) return changed;
            // At the instant that it was made, whatever the clock of whoever said so first.
            var at = record.Occurred.IsInstant ? Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(record.Instant)) : record.Occurred;
            var fact = FactText.WriteDerived(saying.Stamp with { Occurred = at }, anew, target.Subjects, target.Id);
            stated.AddRange(CorrectionDecisions.InPlaceOf(target, fact, saying.Stamp));
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(stated);
    }

    private static ReworkedCheck Anew(Register register, CheckRecord record, List<CheckBasis> superseded) =>
        CheckWork.Out(register, EntryOf(record, superseded)) switch
        {
            Result<ChainChecked>.Accepted { Value: var anew } => new(record, superseded, anew with { MadeBy = record.Author }, null),
            Result<ChainChecked>.Rejected { Why: var why } => new(record, superseded, null, why.Text),
            _ => throw new InvalidOperationException("Neither accepted nor rejected."),
        };

    // What was entered then, as far as the check keeps it.
    private static CheckEntry EntryOf(CheckRecord record, List<CheckBasis> superseded)
    {
        var check = record.Check;
        var level = superseded.FirstOrDefault(b => b.IsOfCalibrator);
        return new()
        {
            Campaign = record.Campaign,
            Station = check.Station,
            At = record.Occurred.ToString(),
            Moment = check.Moment,
            Devices = check.Devices,
            Calibrator = check.Calibrator,
            NominalDb = level?.UsedDb ?? check.CalibratorTerms.FirstOrDefault(t => t.Name == "certificate")?.ValueDb,
            FrequencyHz = level?.Used?.Issued.FrequencyHz,
            Adapter = check.Adapter,
            Barometer = check.Barometer,
            Meter = check.Meter,
            Air = check.Air,
            PressureUncertaintyKPa = check.PressureIsEstimated
                ? null
                : check.Budget.FirstOrDefault(l => l is { Unit: "kPa", StandardUncertainty: > 0 })?.StandardUncertainty,
            EstimatePressure = check.PressureIsEstimated ? true : null,
            Method = check.Method,
            Readings = check.Readings,
            Resolution = check.Resolution,
            MeterDb = check.Budget.FirstOrDefault(l => l.Name == CheckWork.ReadingInstrument)?.StandardUncertainty,
            RangeV = check.RangeV,
            SetToDb = SetTo(check),
            Tone = check.Tone,
            Remark = check.Remark,
        };
    }

    // What a chain that indicates levels was set to, unless that was what its certificates let expect.
    private static double? SetTo(ChainChecked check)
    {
        if (check.SensitivityDb - check.IndicatedDb is not { } set) return null;
        var expected = check.ExpectedTerms.Where(t => t.Name != CheckWork.AtThePlace).Sum(t => t.ValueDb);
        return check.ExpectedTerms.Count > 0 && Math.Abs(set - expected) <= SameDb ? null : set;
    }
}
