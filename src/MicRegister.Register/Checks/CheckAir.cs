using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>
/// Whether a calibrator's level was worked out for the static pressure and the temperature of the day, where a profile asks for it: the one
/// answer for plan, check and trace.
/// </summary>
/// <remarks>
/// 14 CFR 36, A36.3.9.7 (seen, 2021 edition): the level in the coupler for the pressure and temperature of the test day, from the maker's
/// data.
/// </remarks>
public static class CheckAir
{
    private const string Temperature = "temperature";

    /// <summary>What the profile asks to be known of the air at a check, and nobody read.</summary>
    public static IReadOnlyList<string> Unread(ProfileState? profile, ChainChecked check)
    {
        List<string> unread = [];
        foreach (var asked in Asked(profile))
        {
            if (asked == Temperature ? check.Air?.TemperatureC is null : check.PressureIsEstimated || check.Air?.PressureKPa is null)
                unread.Add(asked == Temperature ? Temperature : "static pressure");
        }
        return unread;
    }

    /// <summary>Whether the profile asks for the temperature, it was read, and the calibrator's level was worked out without it.</summary>
    public static bool IsWithoutTemperature(ProfileState? profile, ChainChecked check) =>
        Asked(profile).Contains(Temperature) && check.Air?.TemperatureC is not null
        && !check.CalibratorTerms.Any(t => t.Name == CheckWork.TemperatureTerm);

    /// <summary>Whether the profile asks for the temperature and the maker's coefficient of a calibrator is not stored.</summary>
    public static bool IsWithoutCoefficient(ProfileState? profile, DeviceState device) =>
        device.Kind == DeviceKind.Calibrator.Key && Asked(profile).Contains(Temperature)
        && device.Number(DeviceField.TemperatureCoefficient) is null;

    /// <summary>What is to be said of a check, in sentences; null where the profile asks for nothing or all is known.</summary>
    public static string? Of(Register register, ProfileState? profile, ChainChecked check)
    {
        if (Unread(profile, check) is { Count: > 0 } unread)
            return $"No {string.Join(" and no ", unread)} of the day was read, which the profile asks for the calibrator's level.";
        return IsWithoutTemperature(profile, check) ? NotCorrected(register.Device(check.Calibrator)?.Name ?? check.Calibrator) : null;
    }

    /// <summary>That a level was not corrected for the temperature, in a sentence.</summary>
    public static string NotCorrected(string calibrator) =>
        $"The level of {calibrator} was not worked out for the temperature of the day: no maker's coefficient of temperature was stored; "
        + "nothing is added, and nothing to its uncertainty.";

    private static IReadOnlyList<string> Asked(ProfileState? profile) => profile?.Words(LimitKey.CheckAir) ?? [];
}
