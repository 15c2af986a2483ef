using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>What of the air was not read at a check, though the chain's microphone follows it.</summary>
public static class UnreadAir
{
    /// <summary>
    /// That the level which certificates let expect was not brought to the air at the place; null where all was read that the microphone
    /// follows, or nothing was to be expected.
    /// </summary>
    /// <param name="register">Tells what the microphone follows.</param>
    /// <param name="check">The check.</param>
    public static string? Of(Register register, ChainChecked check)
    {
        if (check.ExpectedTerms.Count == 0) return null;
        var microphone = check.Devices.Select(d => register.Device(d)).FirstOrDefault(d => d?.Kind == DeviceKind.Microphone.Key);
        bool Follows(DeviceField coefficient) => microphone?.Number(coefficient) is { } perUnit and not 0;
        var reference = AirConditions.Reference;
        var unread = new List<(string Name, string Taken)>();
        if (Follows(DeviceField.PressureCoefficient) && check.Air?.PressureKPa is null && !check.PressureIsEstimated)
            unread.Add(("static pressure", QuantityText.Of(reference.PressureKPa, "kPa", 3)));
        if (Follows(DeviceField.TemperatureCoefficient) && check.Air?.TemperatureC is null)
            unread.Add(("temperature", QuantityText.Of(reference.TemperatureC, "°C", 0)));
        if (Follows(DeviceField.HumidityCoefficient) && check.Air?.HumidityPercent is null)
            unread.Add(("humidity", QuantityText.Of(reference.HumidityPercent, "%", 0)));
        return unread.Count == 0 ? null
            : $"No {string.Join(" and no ", unread.Select(u => u.Name))} was read, which the microphone follows: what its certificates let "
                + $"expect holds for {string.Join(", ", unread.Select(u => u.Taken))}, and nothing of the deviation or its uncertainty is "
                + "corrected for the air that there was.";
    }
}
