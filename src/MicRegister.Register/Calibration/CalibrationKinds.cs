using MicRegister.Metrology.Quantities;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>Kinds of facts about calibrations.</summary>
internal sealed class CalibrationKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("certificate-issued", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Bench | Duties.Plan, _ => PhoneReach.Nothing,
            new CertificateIssued(
                "sensitivity", "C 1", "Laboratory", null, "pressure", null, "open-circuit", 250,
                [new(AdjustmentState.AsFoundAndLeft, 12.5, "mV/Pa", 0.1, "dB", 2)], new(101.3, 23, 50), null, null, null, null, null, null),
            f => f.Results.Count == 0
                ? f.Quantity
                : $"{f.Quantity} {QuantityText.Stated(f.Results[^1].Value, f.Results[^1].Unit)} {f.Results[^1].Unit}",
            f => f.ReferenceDevice is { } reference ? [CertificateIssued.MeasuredAgainst(reference)] : []),
        FactKind.Of("alarm-reviewed", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Bench | Duties.Plan, _ => PhoneReach.Nothing,
            new AlarmReviewed("01J8Z3Q4R5S6T7V8W9XAYBZC0D", AlarmDecision.NoChange, "scatter"),
            f => f.Reason),
        FactKind.Of("certificate-chosen", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Bench | Duties.Plan, _ => PhoneReach.Nothing,
            new CertificateChosen("01J8Z3Q4R5S6T7V8W9XAYBZC0D", "the other was a trial"),
            f => f.Reason),
    ];
}
