using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>A check in the history of a campaign or a device.</summary>
/// <param name="Fact">Id of the fact; the default where it is not stored yet.</param>
/// <param name="Occurred">When.</param>
/// <param name="Day">Local day at the site, or at home where it belongs to no campaign.</param>
/// <param name="Author">Who said so.</param>
/// <param name="Campaign">Id of the campaign; null at a bench.</param>
/// <param name="Check">What it says; joined devices under the entry that was kept.</param>
/// <param name="Instant">Milliseconds since 1970, its client's clock put right; of a bare day its begin.</param>
/// <param name="Sequence">Where it stands among those it was read with: by time, its client's counter, and id. Of two that say the same thing, the later one was meant to be right.</param>
public sealed record CheckRecord(FactId Fact, Occurred Occurred, DateOnly Day, string Author, string? Campaign, ChainChecked Check, long Instant = 0, int Sequence = 0)
{
    /// <summary>Ids of what it was made with: calibrator, adapter, barometer and meter, as far as they were said.</summary>
    public IEnumerable<string> Kit => new[] { Check.Calibrator, Check.Adapter, Check.Barometer, Check.Meter }.OfType<string>();

    /// <summary>Whether a device is among what it was made with.</summary>
    public bool IsMadeWith(string device) =>
        Check.Calibrator == device || Check.Adapter == device || Check.Barometer == device || Check.Meter == device;

    /// <summary>Id of the fact that stated the session it was made in; null where it was made in none, or on a bare day.</summary>
    public FactId? Session { get; init; }

    /// <summary>The test that it belongs to.</summary>
    public TestTime Test => new(Day, Session);

    /// <summary>Its budget, with what it shares with no other check told apart by its id.</summary>
    public UncertaintyBudget Budget => Worked.Of(this);

    private WorkedBudget Worked { get; } = new();

    /// <summary>Uncertainty of its deviation from the certificates; null where there is none.</summary>
    public UncertaintyBudget? DeviationBudget => Check.DeviationDb is null ? null : UncertaintyBudget.OfSum(
        (Budget, 1), (new([.. Check.ExpectedTerms.Select(t => new UncertaintyComponent(t.Name, t.Source, t.StandardDb))]), -1));

    /// <summary>Whether the same chain was checked, at the same range.</summary>
    public bool IsSameChain(CheckRecord other) => Check.RangeV == other.Check.RangeV && Check.Devices.Order(StringComparer.Ordinal).SequenceEqual(other.Check.Devices.Order(StringComparer.Ordinal));

    /// <summary>How far the chain moved from another check to this one, in dB; null where both cannot be compared.</summary>
    public double? Since(CheckRecord other) =>
        !IsSameChain(other) ? null
        : Check.SensitivityUnit is { } unit && unit == other.Check.SensitivityUnit && Check.Method == other.Check.Method ? Check.SensitivityDb - other.Check.SensitivityDb
        : Check.IndicatedDb - other.Check.IndicatedDb;

    /// <summary>Uncertainty of that difference: what both share cancels.</summary>
    public UncertaintyBudget SinceBudget(CheckRecord other) => UncertaintyBudget.OfSum((Budget, 1), (other.Budget, -1));
}

/// <summary>The budget of a check, worked out once: traces and judgements ask for it again and again.</summary>
internal sealed class WorkedBudget
{
    private Known? _known;

    public UncertaintyBudget Of(CheckRecord record)
    {
        var known = _known;
        // Copies of a record share this; one of another check or fact works its own out.
        if (known is null || !ReferenceEquals(known.Check, record.Check) || known.Fact != record.Fact)
            _known = known = new(record.Check, record.Fact, Work(record));
        return known.Budget;
    }

    /// <summary>What was worked out says nothing of whether two records are equal.</summary>
    public override bool Equals(object? obj) => obj is WorkedBudget;

    public override int GetHashCode() => 0;

    private static UncertaintyBudget Work(CheckRecord record) => CheckWork.BudgetOf([.. record.Check.Budget.Select(l => l.Source switch
    {
        var own when own.StartsWith(BudgetLine.Own, StringComparison.Ordinal) => l with { Source = $"{record.Fact}: {own}" },
        // Checks that name no meter are taken to share one; whoever reads the budget must see it.
        CheckWork.ReadingInstrument => l with { Name = "reading instrument that nobody named, taken as one for all checks" },
        _ => l,
    })]);

    private sealed record Known(ChainChecked Check, FactId Fact, UncertaintyBudget Budget);
}
