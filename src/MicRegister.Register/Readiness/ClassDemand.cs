using MicRegister.Metrology.Classes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>
/// Whether a device's class suffices for a profile: the one answer of readiness, traces, the device's page, the API and the command line.
/// </summary>
/// <param name="Field">The detail that holds the class.</param>
/// <param name="Key">Key of the limit.</param>
/// <param name="Asked">The least class as the profile states it.</param>
/// <param name="Source">Where the profile has it from.</param>
/// <param name="Has">The class of the device; null where none is known.</param>
/// <param name="Verdict">The answer.</param>
/// <param name="Text">All of it in a sentence.</param>
public sealed record ClassDemand(
    DeviceField Field, string Key, string Asked, string Source, StatedClass? Has, ClassVerdict Verdict, string Text)
{
    private static readonly (string Key, DeviceField Field)[] Keys =
    [
        (LimitKey.CalibratorClassLeast, DeviceField.CalibratorClass),
        (LimitKey.FilterClassLeast, DeviceField.FilterClass),
        (LimitKey.MeterClassLeast, DeviceField.MeterClass),
    ];

    /// <summary>What a profile asks of a device.</summary>
    /// <param name="device">The device.</param>
    /// <param name="profile">The profile; null asks nothing.</param>
    /// <returns>
    /// Nothing of kinds that have no class. A calibrator whose class is not known is undecided; of filters and meters nothing is asked
    /// where no class is known, since a recorder need be neither.
    /// </returns>
    public static IEnumerable<ClassDemand> Of(DeviceState device, ProfileState? profile)
    {
        foreach (var (key, field) in Keys)
        {
            if (profile?.Limit(key) is not { Text: { } text } limit || DeviceKind.Find(device.Kind)?.Own.Contains(field) != true) continue;
            if (InstrumentClasses.Of(device, field, out var wrong) is var has && has is null && wrong is null)
            {
                if (device.Kind == DeviceKind.Calibrator.Key)
                {
                    yield return new(field, key, text, limit.Source, null, new(ClassAnswer.Undecided, "its class is not known"),
                        $"The class of {device.Name} is not known; the profile asks for at least {Words(field, text)}.");
                }
                continue;
            }
            var verdict = LeastClass.Read(field.Sort!, text, out var unclear) is not { } least
                ? new(ClassAnswer.Undecided, "what the profile asks cannot be read: " + unclear)
                : has is null ? new(ClassAnswer.Undecided, wrong!)
                : ClassOrder.Judge(has, least, IsCorrectionStated(device));
            var stated = has?.Text ?? $"class '{device.Text(field)}'";
            yield return new(field, key, text, limit.Source, has, verdict,
                $"{device.Name} is of {stated}; the profile asks for at least {Words(field, text)}: {verdict.Why}.");
        }
    }

    /// <summary>Whether the register holds how its level follows static pressure, as the maker states it.</summary>
    internal static bool IsCorrectionStated(DeviceState calibrator) => calibrator.Text(DeviceField.PressureLaw) switch
    {
        "adiabatic" => true,
        "coefficient" => calibrator.Number(DeviceField.PressureCoefficient) is not null,
        _ => false,
    };

    private static string Words(DeviceField field, string text) => LeastClass.Read(field.Sort!, text, out _)?.Words ?? text;
}
