using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Drift;

namespace MicRegister.Server.Pages.Devices;

/// <summary>What a new result was held against, in words that are the same wherever one is entered.</summary>
internal static class ExpectationText
{
    /// <summary>How far it lies, and from what.</summary>
    /// <param name="told">What was expected.</param>
    /// <param name="unit">Unit of levels of its quantity.</param>
    public static string Distance(EntryExpectation told, string unit) => told.Basis switch
    {
        ExpectationBasis.Forecast => $"{QuantityText.Number(Math.Abs(told.Z!.Value), 1)} sigma from what was expected",
        ExpectationBasis.ForecastWithoutUncertainty =>
            $"{QuantityText.Number(Math.Abs(told.Z!.Value), 1)} sigma from what was expected, with U = "
                + $"{QuantityText.Expanded(told.AssumedExpandedDb, "dB")} dB of {told.Day:yyyy-MM-dd} in place of the missing one",
        ExpectationBasis.Certificate =>
            $"{QuantityText.Change(told.DeviationDb, unit, 3)} from the certificate of {told.Day:yyyy-MM-dd}, "
                + $"where {QuantityText.UpTo(told.LimitDb, 1)} {unit} is asked about; there is no forecast that it can be held against",
        _ => $"{QuantityText.Change(told.DeviationDb, unit, 3)} from the nominal value, where {QuantityText.UpTo(told.LimitDb, 1)} {unit} "
            + "is asked about; there is no certificate before",
    };

    /// <summary>What to look at where it lies too far.</summary>
    public const string LookAt = "check the coupler, the pressure, the unit.";

    /// <summary>How rarely a good result lies so far; empty where nothing tells.</summary>
    public static string Rarely(EntryExpectation told) => told.StandardDeviationDb is null ? ""
        : $"One good result in a hundred lies beyond {QuantityText.Number(EntryCheck.Limit, 1)} sigma.";
}
