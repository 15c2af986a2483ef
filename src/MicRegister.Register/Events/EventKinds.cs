using System.Globalization;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>Kinds of facts about what was recorded.</summary>
internal sealed class EventKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("event-recorded", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new EventRecorded("Run 1", "2026-08-03T08:00:00.000Z", "2026-08-03T08:01:00.000Z"),
            f => f.Name),
        FactKind.Of("event-recorded", 2, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new EventHappened("Run 1", "2026-08-03T08:00:00.000Z", "2026-08-03T08:01:00.000Z", EventKind.FlyOver, "propeller", [], null),
            f => f.Name),
        FactKind.Of("recorder-clock-set", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan,
            _ => PhoneReach.Campaign,
            new RecorderClockSet("R1", TimeScale.Gps, null, []),
            f => $"{f.Recorder} shows {f.Scale.InWords}"),
        FactKind.Of("recorder-time-checked", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan,
            _ => PhoneReach.Campaign,
            new RecorderTimeChecked("R1", "2026-08-03T08:00:00.000", "2026-08-03T08:00:01.000Z", 0.5, null),
            f => $"{f.Recorder} showed {f.Shown} at {f.TrueUtc}"),
        FactKind.Of("recorder-hour-chosen", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan,
            _ => PhoneReach.Campaign,
            new HourChosen("R1", "2026-10-25T02:30:00.000", true, "from the log of the crew"),
            f => $"{f.Recorder}: {f.Shown} was the {(f.IsFirst ? "first" : "second")}"),
        FactKind.Of("incidence-stated", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Plan, _ => PhoneReach.Campaign,
            new IncidenceStated(null, 25, 10, "from the flight track"),
            InWords),
    ];

    private static string InWords(IncidenceStated f)
    {
        var half = f.HalfWidthDeg is { } width ? string.Create(CultureInfo.InvariantCulture, $" ± {width:0.#}°") : "";
        var place = f.Station is { } at ? " at " + at : "";
        return string.Create(CultureInfo.InvariantCulture, $"{f.AngleDeg:0.#}°{half}{place}, {f.Reason}");
    }
}
