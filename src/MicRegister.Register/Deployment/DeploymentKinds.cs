using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>Kinds of facts about what crews do outdoors.</summary>
internal sealed class DeploymentKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("chain-placed", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new ChainPlacedBriefly("S01", ["A1"], 7),
            f => f.Station),
        FactKind.Of("chain-placed", 2, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new ChainPlaced("S01", ["A1"], [], null, true, new(53.5, 10.1, 4), 10, null, [], null),
            f => f.Station + (f.Swap is { } swap ? $", swapped: {swap.Reason}" : "")),
        FactKind.Of("chain-taken-in", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new ChainTakenIn("S01", ["A1"], [], null),
            f => f.Station + (f.Missing.Count > 0 ? string.Create(CultureInfo.InvariantCulture, $", {f.Missing.Count} missing") : "")),
        FactKind.Of("tone-noted", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Bench, _ => PhoneReach.Campaign,
            new ToneNoted("S01", CheckMoment.Before, ["A1"], "K1", null, null, null),
            f => f.Station),
        FactKind.Of("photo-taken", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.Campaign,
            new PhotoTaken(new string('0', 64), "image/jpeg", "plate S01", "S01", null, null),
            f => f.Text ?? f.Station),
        FactKind.Of("weather-noted", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.Campaign,
            new WeatherNoted(240, 3.4, 18, 61, 100.1),
            f => f.WindMs is { } wind ? $"wind {QuantityText.UpTo(wind, 1)} m/s" : null),
        FactKind.Of("weather-logged", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Nothing,
            new WeatherLogged(
                "mast.csv", new string('0', 64), [new("2026-08-03T08:00:00.000Z", 240, 3.4, 5.2, 18, 61, 100.1)], "on a mast of 10 m"),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.Readings.Count} readings of {f.File}")),
    ];
}
