using MicRegister.Metrology.Classes;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Classes of instruments: what a device states, whether it suffices, and whether its certificate keeps it.</summary>
internal static class ClassesApi
{
    public static void Map(IEndpointRouteBuilder app) =>
        app.MapGet("/api/devices/{id}/class", Read).Produces<ClassView>().WithTags("devices");

    private static IResult Read(Desk desk, string id, string? profile)
    {
        if (desk.Now.Device(id) is not { } device) return Answers.NotFound($"There is no device {id}.");
        return desk.Now.Profile(profile ?? BuiltInProfiles.Usual) is { } asked
            ? Results.Ok(ClassView.Of(device, asked))
            : Answers.Invalid($"Profile '{profile}': allowed are {string.Join(", ", desk.Now.ProfileIds)}.");
    }
}

/// <summary>The classes of a device beside what a profile asks, and its certificate beside the limits of its class.</summary>
/// <param name="Device">Id.</param>
/// <param name="Name">Words that people know it by.</param>
/// <param name="Profile">Id of the profile.</param>
/// <param name="Classes">Each class that it states or that is asked of it.</param>
/// <param name="Limits">Its newest level certificate, quantity by quantity; empty of what is no calibrator.</param>
public sealed record ClassView(
    string Device, string Name, string Profile, IReadOnlyList<StatedClassView> Classes, IReadOnlyList<ClassLimitView> Limits)
{
    private static readonly DeviceField[] Fields = [DeviceField.CalibratorClass, DeviceField.FilterClass, DeviceField.MeterClass];

    /// <summary>Whether there is anything to show.</summary>
    public bool IsEmpty => Classes.Count == 0 && Limits.Count == 0;

    internal static ClassView Of(DeviceState device, ProfileState profile)
    {
        var demands = ClassDemand.Of(device, profile).ToList();
        var classes = new List<StatedClassView>();
        foreach (var field in Fields)
        {
            var demand = demands.Find(d => d.Field == field);
            if (demand is null && device.Text(field) is null) continue;
            var stated = InstrumentClasses.Of(device, field, out var wrong);
            classes.Add(new(
                field.Key, stated?.Designation ?? device.Text(field), stated?.Edition?.Text, stated?.Text ?? wrong ?? "not known",
                demand?.Asked, demand?.Source, demand?.Verdict.Answer, demand?.Verdict.Why, demand?.Verdict.IsOwnReading ?? false, demand?.Text));
        }
        return new(device.Id, device.Name, profile.Id, classes, [.. CalibratorLimitSheet.Of(device).Select(l => new ClassLimitView(
            l.Quantity, l.Verdict, l.Deviation, l.Expanded, l.Limit?.Limit, l.Limit?.GreatestExpanded, l.Limit?.Unit, l.Limit?.Mark,
            l.Text))]);
    }
}

/// <summary>A class that a device states, and whether it suffices.</summary>
/// <param name="Detail">Key of the detail that holds it.</param>
/// <param name="Class">Class and letter; null where none is known.</param>
/// <param name="Edition">Its edition; null where none is stated and no letter tells it.</param>
/// <param name="Stated">Both in words.</param>
/// <param name="Asked">The least class that the profile asks for; null where it asks for none.</param>
/// <param name="Source">Where the profile has that from.</param>
/// <param name="Answer">Whether it suffices; null where nothing is asked.</param>
/// <param name="Why">Why.</param>
/// <param name="IsOwnReading">Whether that is a reading of this program, which no standard states.</param>
/// <param name="Text">All of it in a sentence, as plans and traces say it.</param>
public sealed record StatedClassView(
    string Detail, string? Class, string? Edition, string Stated, string? Asked, string? Source, ClassAnswer? Answer, string? Why,
    bool IsOwnReading, string? Text);

/// <summary>A quantity of a calibrator's certificate beside the limit of its class.</summary>
/// <param name="Quantity">level, frequency, distortion or fluctuation; class where none can be judged.</param>
/// <param name="Verdict">Whether it keeps the limit.</param>
/// <param name="Deviation">Deviation from the nominal value, or the figure itself, in the unit.</param>
/// <param name="Expanded">Expanded uncertainty (k = 2) in the unit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="GreatestExpanded">Greatest expanded uncertainty with which it may be judged.</param>
/// <param name="Unit">dB or %.</param>
/// <param name="Mark">Where the limit comes from.</param>
/// <param name="Text">All of it in a sentence.</param>
public sealed record ClassLimitView(
    string Quantity, ClassLimitVerdict Verdict, double? Deviation, double? Expanded, double? Limit, double? GreatestExpanded, string? Unit,
    string? Mark, string Text);
