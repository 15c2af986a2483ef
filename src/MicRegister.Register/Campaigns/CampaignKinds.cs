using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>Kinds of facts about campaigns and requirement profiles.</summary>
internal sealed class CampaignKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("profile-written", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new ProfileWritten("Own profile", "as the house does it", []),
            f => f.Name),
        FactKind.Of("profile-confirmed", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new ProfileConfirmed("2024", "as printed") { EditionDay = new(2024, 3, 1), Digest = "0123456789abcdef0123456789" },
            f => $"compared with edition {f.Edition}" + (f.EditionDay is { } day ? $", text of {day:yyyy-MM-dd}" : "")),
        FactKind.Of("campaign-planned", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new CampaignPlanned(
                "Heath", new(2026, 8, 3), new(2026, 8, 7), "Europe/Berlin", [], "Heath", 60, SourceClass.Propeller,
                50, 10_000, 40, 120, "ground-plate", 1, 2),
            f => f.Name),
        FactKind.Of("station-planned", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new StationPlanned("S01", 53.5, 10.1, Mount.FlushPlate, null),
            f => f.Station),
        FactKind.Of("station-surveyed", 1, FactReading.Whole, FactReach.Everything, Duties.Field | Duties.Plan, _ => PhoneReach.Nothing,
            new StationSurveyed("S01", 53.5000012, 10.0999987, 14.32, 0.007, 0.02, 0.03, "total station", null),
            f => string.Create(
                CultureInfo.InvariantCulture, $"{f.Station}, ± {QuantityText.UpTo(2 * f.HorizontalStandardM, 3)} m by {f.Method}")),
        FactKind.Of("chain-planned", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new ChainPlanned("S01", ["A1", "A2"]),
            f => f.Station),
        FactKind.Of("kit-planned", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new KitPlanned(KitPurpose.Spare, ["A3"]),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.Devices.Count} devices, {f.Purpose.InWords}")),
        FactKind.Of("sensitivity-rule-chosen", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new SensitivityRuleChosen(SensitivityRule.MeanOfChecks, "as agreed"),
            f => f.Reason),
    ];
}
