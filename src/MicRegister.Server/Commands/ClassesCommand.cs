using System.CommandLine;
using System.Text.Json;
using MicRegister.Metrology.Classes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Says of each instrument which class of which edition it states, and whether that suffices for a profile.</summary>
internal static class ClassesCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var profile = new Option<string?>("--profile") { Description = $"Id of a requirement profile; otherwise {BuiltInProfiles.Usual}." };
        var command = new Command(
            "classes",
            "Classes of calibrators, filters and meters with their editions: does each suffice for a profile, "
                + "and does its certificate keep it?")
        { data, profile, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(profile) ?? BuiltInProfiles.Usual, parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string folder, string profileId, bool asJson)
    {
        using var store = CommandStore.Read(folder);
        var register = store.Register;
        if (register.Profile(profileId) is not { } profile)
            throw new BadUseException($"--profile {profileId}: allowed are {string.Join(", ", register.ProfileIds)}.");
        var views = register.DeviceIds.Select(id => ClassView.Of(register.Device(id)!, profile)).Where(v => !v.IsEmpty).ToList();
        var misses = views.Any(v => v.Classes.Any(c => c.Answer == ClassAnswer.Misses));
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(views, CommandJson.Indented));
            return misses ? CommandExit.NotReady : CommandExit.Good;
        }
        if (views.Count == 0) Console.WriteLine("No instrument with a class is registered.");
        foreach (var view in views)
        {
            foreach (var c in view.Classes)
            {
                Console.WriteLine($"{view.Name}: {c.Stated}" + (c.Answer is { } answer
                    ? $": {answer.InWords} {LeastWords(c)}: {c.Why}{(c.IsOwnReading ? " (own reading)" : "")}"
                    : ""));
            }
            foreach (var l in view.Limits) Console.WriteLine($"  {l.Verdict.InWords}: {l.Text}");
        }
        return misses ? CommandExit.NotReady : CommandExit.Good;
    }

    private static string LeastWords(StatedClassView c) => $"{c.Asked} ({c.Source})";
}
