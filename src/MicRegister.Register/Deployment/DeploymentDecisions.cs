using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>What people at the desk say of a campaign in the field.</summary>
public static class DeploymentDecisions
{
    /// <summary>Notes the weather at the site.</summary>
    public static Result<IReadOnlyList<Fact>> NoteWeather(Register register, Saying saying, string campaign, WeatherNoted weather)
    {
        if (register.Campaign(campaign) is null) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (weather is { WindFromDeg: null, WindMs: null, TemperatureC: null, HumidityPercent: null, PressureKPa: null }) return Saying.Invalid("Nothing was noted: fill in at least one figure.");
        foreach (var (name, value, least, greatest, unit) in new[]
        {
            ("Wind from", weather.WindFromDeg, 0.0, 360.0, "°"), ("Wind", weather.WindMs, 0, 100, "m/s"), ("Temperature", weather.TemperatureC, -50, 70, "°C"), ("Humidity", weather.HumidityPercent, 0, 100, "%"), ("Static pressure", weather.PressureKPa, 30, 120, "kPa"),
        })
        {
            if (value is { } v && !(v >= least && v <= greatest)) return Saying.Invalid(FormattableString.Invariant($"{name} '{v}': allowed is a number from {least} to {greatest} {unit}."));
        }
        return saying.Of(register, weather, Subject.Campaign(campaign));
    }
}
