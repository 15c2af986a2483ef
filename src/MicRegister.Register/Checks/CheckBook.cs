using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Checks;

/// <summary>The checks that count, in the order of time.</summary>
public static class CheckBook
{
    /// <summary>Checks of a campaign.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">Its id.</param>
    /// <param name="until">Last local day; null for all.</param>
    public static IReadOnlyList<CheckRecord> OfCampaign(Register register, string campaign, DateOnly? until = null) =>
        Of(register, register.Facts(Subject.Campaign(campaign)), until);

    /// <summary>Checks that a device took part in as a part of the chain.</summary>
    public static IReadOnlyList<CheckRecord> OfDevice(Register register, string device, DateOnly? until = null)
    {
        var entries = register.EntriesOf(device);
        return [.. Of(register, [.. entries.SelectMany(e => register.Facts(Subject.Device(e))).Distinct()], until).Where(c => c.Check.Devices.Any(entries.Contains))];
    }

    /// <summary>Checks that were made with a calibrator, an adapter, a barometer or a meter.</summary>
    public static IReadOnlyList<CheckRecord> MadeWith(Register register, string device)
    {
        var entries = register.EntriesOf(device);
        return [.. Of(register, [.. entries.SelectMany(e => register.Facts(Subject.Device(e))).Distinct()], null).Where(c => entries.Any(c.IsMadeWith))];
    }

    /// <summary>Checks that a device took part in, as a part of the chain or as what they were made with, between two instants.</summary>
    internal static IReadOnlyList<CheckRecord> Around(Register register, string device, long from, long to) =>
        Of(register, [.. register.EntriesOf(device).SelectMany(e => register.Facts(Subject.Device(e), from, to)).Distinct()], null);

    /// <summary>Checks of a campaign between two instants.</summary>
    internal static IReadOnlyList<CheckRecord> OfCampaignBetween(Register register, string campaign, long from, long to) => Of(register, register.Facts(Subject.Campaign(campaign), from, to), null);

    /// <summary>A check that is not stored yet, as it would stand among the others.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">Id of the campaign; null at a bench.</param>
    /// <param name="at">When it was made.</param>
    /// <param name="check">The check.</param>
    /// <param name="number">Tells several apart.</param>
    public static CheckRecord Unstored(Register register, string? campaign, Occurred at, ChainChecked check, int number) =>
        new(
            FactId.Derive(default, [.. "unstored"u8, .. BitConverter.GetBytes(number)]), at, Day(register, campaign, at, at.UnixMilliseconds), "",
            campaign, check, at.UnixMilliseconds, int.MaxValue - 100_000 + number)
        {
            Session = Session(register, campaign, at, at.UnixMilliseconds),
        };

    /// <summary>
    /// Checks of a campaign whose facts cannot be worked with, such as one without a budget: they are stored, shown and not used.
    /// </summary>
    public static IReadOnlyList<UnsoundCheck> Unsound(Register register, string campaign) =>
        register.Memory.Of<Shelf<IReadOnlyList<UnsoundCheck>>>().Of(campaign, register.Version(Subject.Campaign(campaign)), id =>
        [
            .. register.Facts(Subject.Campaign(id)).Where(s => register.IsOfKind(s, "chain-checked") && register.Counts(s))
                .Select(register.Source.Read).Where(f => UnsoundAt(f.Body) is not null)
                .Select(f => new UnsoundCheck(f.Id, UnsoundAt(f.Body) is { Length: > 0 } at ? at : null, f.Occurred, register.Instant(f))),
        ]);

    // Where a check was made that cannot be worked with, empty for a bench; null for one that can, or that nobody here can read.
    private static string? UnsoundAt(FactBody body) => body switch
    {
        ChainChecked check => IsSound(check) ? null : check.Station ?? "",
        // It names no parts, no reading and no uncertainty.
        ChainCheckedBriefly brief => brief.Station,
        _ => null,
    };

    /// <summary>A check by its id; null where there is none that can be worked with.</summary>
    internal static CheckRecord? Find(Register register, FactId fact) =>
        register.Find(fact) is var sequence and > 0 && register.IsOfKind(sequence, "chain-checked") && register.Counts(sequence)
            ? Read(register, sequence)
            : null;

    // A fact from elsewhere may state what nobody here could.
    private static bool IsSound(ChainChecked c) =>
        c.Devices.Count > 0 && c.Readings.Count > 0 && c.Readings.All(r => c.Method == CheckMethod.Indicated || r > 0) && c.Budget.Count > 0
        && c.Budget.All(l => l.StandardUncertainty >= 0 && !(l.DegreesOfFreedom <= 0)) && c.ExpectedTerms.All(t => t.StandardDb >= 0) && (c.DeviationDb is null || c.ExpectedTerms.Count > 0)
        && new[] { c.SensitivityDb, c.DeviationDb, c.IndicatedDb }.All(v => v is null || Math.Abs(v.Value) < 1e3);

    private static List<CheckRecord> Of(Register register, IReadOnlyList<int> facts, DateOnly? until)
    {
        var records = new List<CheckRecord>();
        foreach (var sequence in facts)
        {
            if (register.IsOfKind(sequence, "chain-checked") && register.Counts(sequence) && Read(register, sequence) is { } record && (until is null || record.Day <= until)) records.Add(record);
        }
        // A stable order by time: what stands at one instant keeps its timeline's order, by client counter and id, whichever came first.
        List<CheckRecord> ordered = [.. records.OrderBy(r => r.Instant)];
        for (var i = 0; i < ordered.Count; i++) ordered[i] = ordered[i] with { Sequence = i + 1 };
        return ordered;
    }

    // A check is read once a state: traces of a day ask for the same ones again and again.
    private static CheckRecord? Read(Register register, int sequence)
    {
        var remembered = register.Memory.Of<CheckMemory>();
        if (remembered.TryGet(sequence, out var known)) return known;
        var fact = register.Source.Read(sequence);
        CheckRecord? record = null;
        if (fact.Body is ChainChecked check && IsSound(check))
        {
            var campaign = fact.Subjects.FirstOrDefault(Subject.IsCampaign) is { } subject ? Subject.Id(subject) : null;
            var instant = register.Instant(fact);
            string Kept(string id) => register.EntriesOf(id)[0];
            string? KeptOrNone(string? id) => id is null ? null : Kept(id);
            var kept = check with
            {
                Devices = [.. check.Devices.Select(Kept)],
                Calibrator = Kept(check.Calibrator),
                Adapter = KeptOrNone(check.Adapter),
                Barometer = KeptOrNone(check.Barometer),
                Meter = KeptOrNone(check.Meter),
            };
            record = new(
                fact.Id, fact.Occurred, Day(register, campaign, fact.Occurred, instant), check.MadeBy ?? fact.Author, campaign, kept,
                instant, sequence)
            {
                Session = Session(register, campaign, fact.Occurred, instant),
            };
        }
        remembered.Keep(sequence, record);
        return record;
    }

    private static FactId? Session(Register register, string? campaign, Occurred at, long instant) =>
        at.IsInstant ? TestSessions.Of(register, campaign).At(instant)?.Fact : null;

    /// <summary>Local day of something at a campaign's site, or at home.</summary>
    internal static DateOnly Day(Register register, string? campaign, Occurred at, long instant)
    {
        return at.IsInstant ? ZoneOffsets.LocalDay(instant, register.OffsetsOf(campaign)) : at.Day;
    }
}

/// <summary>A check that cannot be worked with: it lacks readings, devices or a budget.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Station">The station; null at a bench.</param>
/// <param name="Occurred">When.</param>
/// <param name="Instant">The same in milliseconds since 1970, its client's clock put right.</param>
public sealed record UnsoundCheck(FactId Fact, string? Station, Occurred Occurred, long Instant);
