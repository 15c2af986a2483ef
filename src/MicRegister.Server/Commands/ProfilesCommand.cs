using System.CommandLine;
using System.Text.Json;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Readiness;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Lists requirement profiles, compares versions, and says what another version would change; stores nothing.</summary>
internal static class ProfilesCommand
{
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(1);

    public static Command Make()
    {
        var id = new Argument<string?>("profile")
        { Description = "Id of a profile; all are listed when left out.", Arity = ArgumentArity.ZeroOrOne };
        var (data, json, today) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.Today());
        var editions = new Option<bool>("--editions") { Description = "List its editions, the built-in one first." };
        var with = new Option<string?>("--with") { Description = "Id of another profile to compare it with, clause by clause." };
        var edition = new Option<string?>("--edition") { Description = "Edition to compare it with: built-in, or the id of a fact." };
        var proposed = new Option<string?>("--proposed")
        { Description = "File of JSON with name, statement and limits: say what would change if it were stored." };
        var command = new Command(
            "profiles", "List requirement profiles, compare two of them or two editions of one, or say what a changed one would change.")
        { id, editions, with, edition, proposed, data, today, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(id), parsed.GetValue(editions), parsed.GetValue(with),
            parsed.GetValue(edition), parsed.GetValue(proposed), parsed.GetValue(today), parsed.GetValue(json), cancel))));
        return command;
    }

    private static int Run(
        string folder, string? id, bool editions, string? with, string? edition, string? proposed, string? todayText, bool asJson,
        CancellationToken cancel)
    {
        using var store = CommandStore.Read(folder);
        var register = CommandStore.Judged(store);
        var asked = new[] { editions, with is not null || edition is not null, proposed is not null }.Count(a => a);
        if (asked > 1) throw new BadUseException("Ask one thing at a time: --editions, --with and --edition, or --proposed.");
        if (id is null)
        {
            if (asked > 0) throw new BadUseException("Name the profile that is meant.");
            return List(register, asJson);
        }
        if (proposed is not null) return Effect(register, id, Read(proposed), todayText, asJson, cancel);
        if (register.Profile(id) is null)
            throw new BadUseException($"There is no profile {id}; known are: {string.Join(", ", register.ProfileIds)}.");
        return editions ? Editions(register, id, asJson)
            : asked > 0 ? Compare(register, id, with, edition, asJson)
            : Show(register, register.Profile(id)!, asJson);
    }

    private static int List(Register.Register register, bool asJson)
    {
        List<ProfileState> all = [.. register.ProfileIds.Select(p => register.Profile(p)!)];
        if (asJson) Console.WriteLine(ApiJson.Text(all));
        else
        {
            foreach (var p in all)
                Console.WriteLine($"{p.Id}: {p.Written.Name}, {p.Written.Limits.Count} limits, {ProfileWords.Checked(register, p)}");
        }
        return CommandExit.Good;
    }

    private static int Show(Register.Register register, ProfileState p, bool asJson)
    {
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(p));
            return CommandExit.Good;
        }
        Console.WriteLine($"{p.Written.Name}: {ProfileWords.Checked(register, p)}");
        Console.WriteLine(p.Written.Statement);
        foreach (var l in p.Written.Limits)
            Console.WriteLine($"  {LimitKey.Find(l.Key)?.Label ?? l.Key}: {l.InWords} ({l.Source}; {l.Certainty})");
        return CommandExit.Good;
    }

    private static int Editions(Register.Register register, string id, bool asJson)
    {
        List<EditionView> all = [.. register.ProfileEditions(id).Select(e => EditionView.Of(register, e))];
        if (asJson) Console.WriteLine(ApiJson.Text(all));
        else
        {
            foreach (var e in all)
            {
                var written = e.Day is { } day ? $"{day:yyyy-MM-dd} by {e.By}" : "came with the program";
                var stands = e.IsInForce ? "; it counts now" : e.Counts ? "" : "; annulled or replaced";
                Console.WriteLine($"{e.Edition}: {written}, {e.Limits.Count} limits, {e.Checked}{stands}");
            }
        }
        return CommandExit.Good;
    }

    private static int Compare(Register.Register register, string id, string? with, string? edition, bool asJson)
    {
        if (ComparedProfiles.Of(register, id, with, edition, out var wrong) is not { } compared) throw new BadUseException(wrong!);
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(compared));
            return CommandExit.Good;
        }
        Console.WriteLine($"Here {compared.Here.Profile} ({compared.Here.Edition}), {compared.Here.Checked}.");
        Console.WriteLine($"There {compared.There.Profile} ({compared.There.Edition}), {compared.There.Checked}.");
        Write(compared.Clauses);
        Console.WriteLine($"In all: {compared.Text}.");
        return CommandExit.Good;
    }

    private static void Write(IReadOnlyList<ProfileClause> clauses)
    {
        foreach (var c in clauses)
        {
            Console.WriteLine(
                $"  {c.Change.InWords}: {c.Label}: there {c.There?.InWords ?? "not asked"}, here {c.Here?.InWords ?? "not asked"} "
                + $"(there: {Origin(c.There)}; here: {Origin(c.Here)})");
        }
    }

    private static string Origin(ProfileLimit? limit) => limit is null ? "none" : $"{limit.Source}, {limit.Certainty}";

    private static int Effect(
        Register.Register register, string id, ProfileWritten proposed, string? todayText, bool asJson, CancellationToken cancel)
    {
        var (time, today) = (TimeProvider.System, CommonOptions.Day(todayText, TimeProvider.System));
        // At this time of that day: a bare day would count from its begin, before what was written on it.
        var at = new DateTimeOffset(today.ToDateTime(TimeOnly.FromTimeSpan(time.GetUtcNow().TimeOfDay)), TimeSpan.Zero);
        var saying = new Saying(new(Occurred.At(at), PersonState.IdOf("Technician"), "command", time.GetUtcNow().ToUnixTimeSeconds()));
        DateOnly SiteDay(string c) => todayText is null ? CampaignReadiness.SiteDay(register, c, time.GetUtcNow()) : today;
        var effect = ProfileEffect.Begin(register, saying, id, proposed, today, SiteDay)
            .Match(e => e, why => throw new BadUseException(why.Text));
        var seen = time.GetTimestamp();
        while (!cancel.IsCancellationRequested && effect.GoOn())
        {
            if (time.GetElapsedTime(seen) < Between) continue;
            seen = time.GetTimestamp();
            Console.Error.WriteLine($"{effect.Done} of {effect.Pieces} campaigns and events are worked out.");
        }
        var view = EffectView.Of(effect);
        if (asJson) Console.WriteLine(ApiJson.Text(view));
        else Write(view);
        return CommandExit.Good;
    }

    private static void Write(EffectView view)
    {
        if (view.Clauses.Count == 0) Console.WriteLine("No clause changes.");
        Write(view.Clauses);
        foreach (var c in view.Campaigns)
        {
            Console.WriteLine($"{c.Name} ({c.Id}): {(c.IsChanged ? "changes" : "stays as it is")}");
            Console.WriteLine($"  readiness: {c.Before?.InWords ?? "no plan"} -> {c.After?.InWords ?? "no plan"}");
            var left = c.EventsLeft > 0 ? $"; {c.EventsLeft} of {c.Events} were not worked out" : "";
            Console.WriteLine(c.Events == 0 ? "  no event" : $"  events: {c.EventsBefore.InWords} -> {c.EventsAfter.InWords}{left}");
            foreach (var e in c.Changed) Console.WriteLine($"  event {e.Id}: {e.StationsBefore} -> {e.StationsAfter}");
            foreach (var d in c.Arising) Console.WriteLine($"  doubt arises: {d.Text}");
            foreach (var d in c.Vanishing) Console.WriteLine($"  doubt vanishes: {d.Text}");
        }
        if (view.Campaigns.Count == 0) Console.WriteLine("No campaign is judged by it.");
        if (!view.IsWhole)
            Console.WriteLine($"Stopped: {Counted(view.CampaignsLeft, "campaign")} and {view.EventsLeft} of "
                + $"{Counted(view.Events, "event")} were not worked out.");
        Console.WriteLine("Nothing was stored.");
    }

    private static string Counted(int n, string what) => $"{n} {what}{(n == 1 ? "" : "s")}";

    private static ProfileWritten Read(string file)
    {
        if (!File.Exists(file)) throw new BadUseException($"--proposed {file}: there is no such file.");
        try
        {
            return ApiJson.Read<ProfileWritten>(File.ReadAllText(file)) ?? throw new JsonException("it holds nothing.");
        }
        catch (Exception e) when (e is JsonException or IOException)
        {
            throw new BadUseException($"--proposed {file}: {e.Message} Allowed is what PUT /api/profiles takes: name, statement, limits.");
        }
    }
}
