using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;

namespace MicRegister.Register.Tracing;

/// <summary>
/// What the air makes of a microphone's sensitivity on the way from where it was told to the event, by the microphone's own
/// coefficients. Certificates tell it in reference conditions, a check in the air that was read there, or else noted within three hours
/// of it. Of a quantity that is not known at either end nothing is corrected, and how far it may have changed is part of the uncertainty.
/// </summary>
internal static class AirToEvent
{
    private const string Name = "microphone, to the air of the event";

    // Most that the air may differ by where it is not known (common practice, no source): from a check, in a warm van or on a cold
    // morning, to an event at the same site; and from reference conditions to any site outdoors.
    private static readonly AirQuantity[] Quantities =
    [
        new(
            "static pressure", "kPa", WeatherQuantity.Pressure, DeviceField.PressureCoefficient, a => a.PressureKPa,
            AirConditions.Reference.PressureKPa, CheckWork.BarometerKPa, HalfFromCheck: 3, HalfFromReference: 60),
        new(
            "temperature", "K", WeatherQuantity.Temperature, DeviceField.TemperatureCoefficient, a => a.TemperatureC,
            AirConditions.Reference.TemperatureC, CheckWork.ThermometerK, HalfFromCheck: 20, HalfFromReference: 35),
        // How well humidity is read is left out, as at a check.
        new(
            "humidity", "%", WeatherQuantity.Humidity, DeviceField.HumidityCoefficient, a => a.HumidityPercent,
            AirConditions.Reference.HumidityPercent, 0, HalfFromCheck: 40, HalfFromReference: 50),
    ];

    /// <summary>What is added, what it makes of the uncertainty, and what must be known of it.</summary>
    /// <param name="c">The chain.</param>
    /// <param name="microphone">Its microphone.</param>
    /// <param name="checks">The checks that tell the sensitivity, each as much as the others; empty where certificates do.</param>
    /// <returns>No term where the microphone states no coefficient.</returns>
    public static AirEffect Of(TracedChain c, DeviceState microphone, IReadOnlyList<CheckRecord> checks)
    {
        var steps = Quantities.Select(q => (Quantity: q, PerUnit: microphone.Number(q.Coefficient) ?? 0)).Where(q => q.PerUnit != 0)
            .Select(q => Step(c, q.Quantity, q.PerUnit, checks)).ToList();
        if (steps.Count == 0) return new(null, [], null);
        // As well as the air is read at a check; the coefficients are taken as exact.
        var read = Math.Sqrt(steps.Sum(s => s.ReadDb * s.ReadDb));
        var source = $"weather of {c.Shared.Event.Id}";
        List<UncertaintyComponent> components = [.. steps.Select(s => s.Unknown).OfType<UncertaintyComponent>()];
        var standard = Math.Sqrt((read * read) + components.Sum(x => x.Contribution * x.Contribution));
        var isRead = steps.Exists(s => s.IsRead);
        if (isRead) components.Insert(0, new("air of the event", source, read));
        string[] remarks = [.. steps.SelectMany(s => s.Remarks)];
        List<string> unknown = [.. steps.Where(s => s.Unknown is not null).Select(s => s.Quantity.Name)];
        var from = checks.Count > 0 ? "the checks" : "reference conditions";
        var caution = unknown.Count == 0 ? null
            : $"How {string.Join(" and ", unknown)} changed from {from} to the event is not known in full: "
                + "for what is not known nothing is corrected, and U holds how far it may be.";
        return new(
            new(
                Name, steps.Sum(s => s.Db), standard,
                isRead ? $"{source}: {string.Join(", ", steps.Select(s => s.Noted).OfType<string>())}" : "none",
                remarks.Length == 0 ? null : string.Join("; ", remarks)),
            components, caution);
    }

    private static AirStep Step(TracedChain c, AirQuantity q, double perUnit, IReadOnlyList<CheckRecord> checks)
    {
        var note = c.Shared.Weather.Nearest(q.Weather, c.FromMs);
        var there = note?.Value;
        var (known, remarks, unknown) = (new List<double>(), new List<string>(), new List<string>());
        foreach (var check in checks)
        {
            var word = ReferenceEquals(check, c.Before) ? "check before" : "check after";
            if (check.Check.Air is { } air && q.Read(air) is { } read) known.Add(read);
            else if (check.Occurred.IsInstant && c.Shared.Weather.Nearest(q.Weather, check.Instant) is { } noted)
            {
                known.Add(noted.Value);
                remarks.Add($"{q.Name} of the {word} by the weather noted within three hours of it ({Cited(noted)})");
            }
            else unknown.Add(word);
        }
        if (checks.Count == 0) known.Add(q.Reference);
        var count = Math.Max(checks.Count, 1);
        var share = there is null ? 1 : unknown.Count / (double)count;
        var half = checks.Count > 0 ? q.HalfFromCheck : HalfFromReference(c, q);
        if (there is null)
        {
            remarks.Clear();
            remarks.Add($"no {q.Name} was noted within three hours; nothing is added, and {PlusMinus(half, q)} count in U");
        }
        else if (unknown.Count > 0)
        {
            remarks.Add(
                $"no {q.Name} was read or noted at the {string.Join(" and the ", unknown)}; "
                + $"nothing is added for that, and {PlusMinus(half, q)} count in U");
        }
        return new(
            q, there is { } t ? perUnit * known.Sum(k => t - k) / count : 0, share < 1 ? perUnit * q.StandardOfReading : 0, share < 1,
            share > 0
                ? UncertaintyComponent.FromHalfWidth(
                    $"{q.Name}, not known", $"air of {c.Shared.Event.Id}: {q.Name} not known", half, UncertaintyDistribution.Rectangular,
                    perUnit * share) with
                { Unit = q.Unit }
                : null,
            share < 1 ? $"{q.Name} by {Cited(note!)}" : null, remarks);
    }

    // A logger's fact holds many readings.
    private static string Cited(WeatherReading reading) => $"fact {reading.Fact}, read {EventBook.Text(reading.Instant)}";

    // Of static pressure the altitude tells most.
    private static double HalfFromReference(TracedChain c, AirQuantity q) =>
        q.Weather == WeatherQuantity.Pressure && c.Campaign.Plan?.AltitudeM is { } altitude and >= -1000 and <= 6000
            ? Math.Abs(StandardAtmosphere.PressureKPa(altitude) - q.Reference) + q.HalfFromCheck
            : q.HalfFromReference;

    private static string PlusMinus(double half, AirQuantity q) => $"± {QuantityText.UpTo(half, 1)} {q.Unit}";

    /// <summary>What one quantity does.</summary>
    /// <param name="Quantity">The quantity.</param>
    /// <param name="Db">What is added for it.</param>
    /// <param name="ReadDb">Standard uncertainty of how it was read, in dB.</param>
    /// <param name="IsRead">Whether it is known at both ends, at least for a part of what tells the sensitivity.</param>
    /// <param name="Unknown">What is not known of it; null where all is.</param>
    /// <param name="Noted">By which note it is known at the event; null where nothing was added for it.</param>
    /// <param name="Remarks">What was assumed.</param>
    private sealed record AirStep(
        AirQuantity Quantity, double Db, double ReadDb, bool IsRead, UncertaintyComponent? Unknown, string? Noted,
        IReadOnlyList<string> Remarks);

    /// <summary>A quantity of the air that a microphone follows.</summary>
    /// <param name="Name">What people call it.</param>
    /// <param name="Unit">Unit of its differences.</param>
    /// <param name="Weather">The same in notes of the weather.</param>
    /// <param name="Coefficient">Field of a microphone that says how it follows it.</param>
    /// <param name="Read">What was read of it at a check.</param>
    /// <param name="Reference">In reference conditions.</param>
    /// <param name="StandardOfReading">Standard uncertainty of a reading.</param>
    /// <param name="HalfFromCheck">Most that it may differ by from a check to an event at one site.</param>
    /// <param name="HalfFromReference">Most that it may differ by from reference conditions to an event.</param>
    private sealed record AirQuantity(
        string Name, string Unit, WeatherQuantity Weather, DeviceField Coefficient, Func<StatedAir, double?> Read, double Reference,
        double StandardOfReading, double HalfFromCheck, double HalfFromReference);
}

/// <summary>What the air makes of a sensitivity.</summary>
/// <param name="Term">What is added; null where the microphone states no coefficient.</param>
/// <param name="Components">What it makes of the uncertainty.</param>
/// <param name="Caution">What must be known of it; null where nothing.</param>
internal sealed record AirEffect(CheckTerm? Term, IReadOnlyList<UncertaintyComponent> Components, string? Caution);
