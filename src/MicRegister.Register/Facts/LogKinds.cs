using System.Globalization;

namespace MicRegister.Register.Facts;

/// <summary>Kinds of facts that the log itself understands.</summary>
internal sealed class LogKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        // Who may annul is asked of what is annulled.
        FactKind.Of(FactKinds.Annulled, 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new FactAnnulled("01J8Z3Q4R5S6T7V8W9XAYBZC0D", "entered for the wrong device"), f => f.Reason),
        FactKind.Of("register-founded", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new RegisterFounded("01J8Z3Q4R5S6T7V8W9XAYBZC0D", "House of the north", "Europe/Berlin", [new("1970-01-01T00:00:00.000Z", 60)]),
            f => f.Name),
        FactKind.Of("client-clock-noticed", 1, FactReading.Whole, FactReach.Everything, Duties.Own, _ => PhoneReach.Nothing,
            new ClientClockNoticed("phone-1.AB12", 40, -7000),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.Client}: {f.OffsetMs / 1000.0:0.#} s to add")),
    ];
}
