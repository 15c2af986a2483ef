using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;

namespace MicRegister.Server.Tests;

/// <summary>Profiles side by side and what a changed one would change, by the interface and by command, with the demo's fleet.</summary>
public sealed class ProfilesTests
{
    private const string C = "QUILLMERE-26";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Two_profiles_are_compared_clause_by_clause_and_the_other_way_round_mirrors()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var there = await server.Get("/api/profiles/small-unmanned-flush/compare?with=array-left-out");
        var back = await server.Get("/api/profiles/array-left-out/compare?with=small-unmanned-flush");

        JsonNode Clause(JsonNode compared, string key) => compared["clauses"]!.AsArray().Single(c => (string)c!["key"]! == key)!;
        Assert.Equal(("small-unmanned-flush", "array-left-out"), ((string)there["here"]!["profile"]!, (string)there["there"]!["profile"]!));
        // 0.3 dB for small unmanned aircraft, 0.5 dB for an array that was left out.
        var drift = Clause(there, "drift-db");
        Assert.Equal(("stricter", 0.3, 0.5),
            ((string)drift["change"]!, (double)drift["here"]!["value"]!, (double)drift["there"]!["value"]!));
        Assert.Equal("common practice, no source", (string)drift["here"]!["source"]!);
        Assert.Equal("looser", (string)Clause(back, "drift-db")["change"]!);
        Assert.Equal(("only-here", "only-there"), ((string)Clause(there, "mounts")["change"]!, (string)Clause(back, "mounts")["change"]!));
        Assert.Equal(ProfileState.Unchecked, (string)there["here"]!["checked"]!);
        Assert.Empty((await server.Get("/api/profiles/array-left-out/compare"))["clauses"]!.AsArray());
        foreach (var (path, says) in new[]
            {
                ("/api/profiles/nowhere/compare", "no profile nowhere"),
                ("/api/profiles/array-left-out/compare?with=nowhere", "no profile nowhere"),
                ("/api/profiles/array-left-out/compare?edition=third", "allowed are built-in"),
                ("/api/profiles/nowhere/editions", "no profile nowhere"),
            })
        {
            using var answer = await server.Client.GetAsync(path, Cancel);
            Assert.Equal(404, (int)answer.StatusCode);
            Assert.Contains(says, await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task What_would_change_is_what_changes_once_it_is_stored_and_a_confirmation_holds_until_then()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var profile = (string)(await server.Get($"/api/campaigns/{C}/readiness"))["profile"]!;
        var path = "/api/profiles/" + profile;
        Assert.Equal(ProfileState.Unchecked, (string)(await server.Get(path))["caution"]!);
        var (confirmed, _, _) = await server.Send(HttpMethod.Post, path + "/confirmations",
            new { edition = "third", editionDay = "2026-01-15" });
        Assert.Equal(200, confirmed);
        var checkedBy = (string)(await server.Get($"/api/campaigns/{C}/readiness"))["profileChecked"]!;
        Assert.StartsWith("compared with third, text of 2026-01-15, by ", checkedBy, StringComparison.Ordinal);
        var (refused, why, _) = await server.Send(HttpMethod.Post, path + "/confirmations",
            new { edition = "third", digest = new string('0', 26) });
        Assert.Equal((409, true), (refused, ((string)why!["detail"]!).Contains("changed meanwhile", StringComparison.Ordinal)));

        var written = (await server.Get(path))["written"]!;
        var proposed = Stricter(written);
        var count = server.Live.Now.Count;
        var (status, effect, _) = await server.Send(HttpMethod.Post, path + "/preview?seconds=60", proposed);
        Assert.Equal((200, count), (status, server.Live.Now.Count));
        Assert.True((bool)effect!["isWhole"]!);
        Assert.Equal("stricter", (string)Assert.Single(effect["clauses"]!.AsArray())!["change"]!);
        var campaign = effect["campaigns"]!.AsArray().Single(c => (string)c!["id"]! == C)!;
        Assert.True((bool)campaign["isChanged"]!);
        var before = await server.Get($"/api/campaigns/{C}/readiness");
        Assert.Equal(Stops(before), (int)campaign["before"]!["stops"]!);

        Assert.Equal(200, (await server.Send(HttpMethod.Put, path, proposed)).Status);

        var after = await server.Get($"/api/campaigns/{C}/readiness");
        Assert.Equal((Stops(after), (string)after["verdict"]!),
            ((int)campaign["after"]!["stops"]!, (string)campaign["after"]!["verdict"]!));
        Assert.NotEqual(Stops(before), Stops(after));
        Assert.Equal((false, ProfileState.Unchecked), ((bool)after["isProfileConfirmed"]!, (string)after["profileChecked"]!));
        var editions = (await server.Get(path + "/editions"))["items"]!.AsArray();
        Assert.Equal([false, true], editions.Select(e => (bool)e!["isInForce"]!));
        Assert.Equal([true, false], editions.Select(e => (bool)e!["isConfirmed"]!));
        var compared = await server.Get(path + "/compare?edition=built-in");
        Assert.Equal("1 stricter", ((string)compared["text"]!).Split(',')[0]);
        // Without an edition it is the one before.
        Assert.Equal(compared.ToJsonString(), (await server.Get(path + "/compare")).ToJsonString());

        // Annulled, the built-in counts again, with the confirmation that it had.
        var (annulled, _, _) = await server.Send(HttpMethod.Post, $"/api/facts/{(string)editions[1]!["edition"]!}/annulments",
            new { reason = "a mistake" });
        Assert.Equal(200, annulled);
        Assert.Equal(checkedBy, (string)(await server.Get($"/api/campaigns/{C}/readiness"))["profileChecked"]!);
        Assert.Equal([true, false], (await server.Get(path + "/editions"))["items"]!.AsArray().Select(e => (bool)e!["counts"]!));
    }

    [Theory]
    [InlineData("?seconds=0", "drift-db", 0.2, "Seconds '0': allowed is a whole number from 1 to 60")]
    [InlineData("?seconds=61", "drift-db", 0.2, "Seconds '61'")]
    [InlineData("", "drift-db", -1.0, "a number from 0")]
    [InlineData("", "nonsense", 1.0, "not known")]
    public async Task What_cannot_be_written_is_refused_in_a_preview_as_well(string query, string key, double value, string says)
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var body = new { name = "Own", statement = "", limits = new[] { new { key, value, source = "x", certainty = "own" } } };
        var (status, problem, _) = await server.Send(HttpMethod.Post, "/api/profiles/own/preview" + query, body);

        Assert.Equal(422, status);
        Assert.Contains(says, (string)problem!["detail"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_lists_compares_and_says_what_would_change()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("demo", "--once", "--data", folder.At("data"));
        Task<(int Exit, string Out, string Error)> Run(params string[] more) =>
            CommandLine.Run(["profiles", .. more, "--data", folder.At("data")]);

        var (exit, list, _) = await Run();
        Assert.Equal(0, exit);
        Assert.Contains("engineering-practice: Engineering-grade practice, ", list, StringComparison.Ordinal);
        Assert.Equal(list.Split(Environment.NewLine).Length - 1, list.Split(ProfileState.Unchecked).Length - 1);
        Assert.Contains("Greatest deviation from the certificate in use: 0.5 dB (common practice, no source",
            (await Run("engineering-practice")).Out, StringComparison.Ordinal);
        Assert.Contains("built-in: came with the program, ", (await Run("engineering-practice", "--editions")).Out,
            StringComparison.Ordinal);
        var (_, compared, _) = await Run("small-unmanned-flush", "--with", "array-left-out");
        Assert.Contains("  stricter: Greatest deviation from the certificate in use: there 0.5 dB, here 0.3 dB", compared,
            StringComparison.Ordinal);
        Assert.Contains("  only here: Mounts allowed: there not asked, here flush-plate", compared, StringComparison.Ordinal);
        Assert.Equal(
            "small-unmanned-flush",
                (string)JsonNode.Parse((await Run("small-unmanned-flush", "--with", "array-left-out",
                "--json")).Out)!["here"]!["profile"]!);

        var profile = (string)JsonNode.Parse((await CommandLine.Run("readiness", C, "--data", folder.At("data"), "--json", "--today",
            "2026-05-04")).Out)!["campaigns"]![0]!["profile"]!;
        var written = JsonNode.Parse((await Run(profile, "--json")).Out)!["written"]!;
        var file = folder.Write("proposed.json", Stricter(written).ToJsonString());
        var (done, effect, _) = await Run(profile, "--proposed", file, "--today", "2026-05-04");
        Assert.Equal(0, done);
        Assert.Contains($"({C}): changes", effect, StringComparison.Ordinal);
        Assert.EndsWith("Nothing was stored." + Environment.NewLine, effect, StringComparison.Ordinal);
        Assert.True((bool)JsonNode.Parse((await Run(profile, "--proposed", file, "--today", "2026-05-04", "--json")).Out)!["isWhole"]!);
        Assert.Contains("built-in",
            Assert.Single((await Run(profile, "--editions")).Out.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal);

        foreach (var (asked, says) in new (string[], string)[]
            {
                (["nowhere"], "There is no profile nowhere; known are: array-left-out"), (["--editions"], "Name the profile"),
                ([profile, "--editions", "--with", "array-left-out"], "one thing at a time"), ([profile, "--edition", "x"], "Edition 'x'"),
                ([profile, "--proposed", folder.At("none.json")], "there is no such file"),
                ([profile, "--proposed", folder.Write("bad.json", "{")], "Allowed is what PUT"),
            })
        {
            var (bad, _, error) = await Run(asked);
            Assert.Equal(2, bad);
            Assert.Contains(says, error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_verdict_says_loudly_that_nobody_compared_its_profile()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("demo", "--once", "--data", folder.At("data"));
        var (_, text, _) = await CommandLine.Run("readiness", C, "--data", folder.At("data"), "--today", "2026-05-04");
        Assert.Contains($", {ProfileState.Unchecked})", text.Split(Environment.NewLine)[0], StringComparison.Ordinal);
    }

    // Half the deviation that is allowed.
    private static JsonNode Stricter(JsonNode written)
    {
        var changed = written.DeepClone();
        var drift = changed["limits"]!.AsArray().Single(l => (string)l!["key"]! == LimitKey.DriftDb)!;
        drift["value"] = (double)drift["value"]! / 10;
        return changed;
    }

    private static int Stops(JsonNode report) => report["findings"]!.AsArray().Count(f => (string)f!["gravity"]! == "stops");
}
