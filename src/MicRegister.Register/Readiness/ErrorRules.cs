using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether what a certificate states lies as near to the nominal figure as the profile asks.</summary>
internal static class ErrorRules
{
    public static IEnumerable<Fault> ErrorWithin(StandingDevice s)
    {
        foreach (var (quantity, limit) in CertificateLimits.Of(s.Profile, CertificateLimits.GreatestError, s.Device.Kind))
        {
            if (limit.Value is not { } most || CalibrationSeries.Newest(s.Device, quantity) is not { } newest) continue;
            if (s.Device.Reviews.ContainsKey(newest.Fact.ToString())) continue;
            var stated = newest.InForce is { } force ? ResultLevel.Of(force) : null;
            if (stated is not { } level || Nominal(s.Device, quantity) is not { } nominal)
            {
                var lacks = stated is null ? "the certificate holds no figure" : "the device has no nominal figure";
                yield return new(
                    Gravity.Risks, s.Device, Clearing.Enter,
                    $"{s.Device.Name}: the error of its {quantity} of {newest.Day:yyyy-MM-dd} is unread, since {lacks}; "
                        + FormattableString.Invariant($"at most {most} dB are allowed."))
                {
                    Basis = $"fact {newest.Fact}",
                };
                continue;
            }
            var error = quantity == "attenuation" ? Math.Abs(level.LevelDb) - nominal : level.LevelDb - nominal;
            if (Decide(s, level, error, most) is var verdict && verdict == ConformityVerdict.Conforms) continue;
            var isOver = verdict == ConformityVerdict.DoesNotConform;
            var unsure = isOver ? ""
                : level.StandardUncertaintyDb is { } u ? $" With U = {QuantityText.Expanded(2 * u, "dB")} it cannot be decided."
                : " Without an uncertainty it cannot be decided.";
            yield return new(
                isOver ? Gravity.Stops : Gravity.Risks, s.Device, isOver ? Clearing.Swap : Clearing.Calibrate,
                $"{s.Device.Name}: its {quantity} of {newest.Day:yyyy-MM-dd} is {QuantityText.Change(error, "dB", 3)} off its nominal "
                    + FormattableString.Invariant($"{QuantityText.UpTo(nominal, 3)} dB; at most {most} dB are allowed.") + unsure,
                new Figure("error", error, "dB"), new Figure("limit", most, "dB"))
            {
                Basis = $"fact {newest.Fact}",
            };
        }
    }

    // A loss is written with either sign, as an attenuation or as a gain; its size is what counts.
    private static double? Nominal(DeviceState device, string quantity) => quantity switch
    {
        "attenuation" => device.Number(DeviceField.GainDb) is { } gain ? Math.Abs(gain) : null,
        "gain" => device.Number(DeviceField.GainDb),
        "level" => device.Number(DeviceField.NominalLevelDb),
        _ => null,
    };

    private static ConformityVerdict Decide(StandingDevice s, ResultLevel level, double error, double most)
    {
        var rule = DecisionRule.Of(s.Profile!.Limit(LimitKey.DecisionRule)?.Text, s.Profile.Value(LimitKey.DecisionProbability));
        var tolerance = Tolerance.Around(0, most);
        if (rule.Kind == DecisionRuleKind.Simple) return tolerance.Simple(error);
        return level.StandardUncertaintyDb is { } u ? rule.Decide(tolerance, error, u, 2 * u) : ConformityVerdict.Undecided;
    }
}
