using System.Text.Json.Nodes;
using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Register;
using MicRegister.Register.People;
using MicRegister.Register.Settings;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

[Collection(Remote.OfTheProcess.Name)]
public sealed class CommandTests
{
    private const string Good = "Kind,Model,Serial,Date,Sensitivity [mV/Pa],U [dB]\nmic,A,101,2025-03-01,12.5,0.06\n";
    private const string Mixed = Good + "mic,A,102,2025-03-01,125,0.06\nmic,A,103,03/04/2025,12.5,0.06\n";

    // A comma would group thousands: 1,2 m were 12 m.
    [Theory]
    [InlineData("--height-m '1,2': allowed is a number with a decimal point", "mounts", "--mount", "ground-stand", "--height-m", "1,2")]
    [InlineData("--limit-db '0,3': allowed is a number with a decimal point", "forecast", "--on", "2026-09-12", "--limit-db", "0,3")]
    public async Task Numbers_of_options_have_a_decimal_point(string says, params string[] args)
    {
        var (exit, _, error) = await CommandLine.Run(args);

        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_dry_run_shows_each_row_and_stores_nothing()
    {
        using var folder = new TemporaryFolder();

        var (exit, output, _) = await CommandLine.Run("import", folder.Write("a.csv", Good), "--dry-run", "--data", folder.At("data"));

        Assert.Equal(0, exit);
        Assert.Contains("row 2: new: Microphone 101: device, result of 2025-03-01", output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("data")));
    }

    [Fact]
    public async Task Bad_rows_stop_an_import_unless_partial_is_asked_for()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("mixed.csv", Mixed);

        var (exit, output, error) = await CommandLine.Run("import", file, "--data", folder.At("data"));
        Assert.Equal(2, exit);
        Assert.Contains("asked, for 1 rows: Is '03/04/2025'", output, StringComparison.Ordinal);
        Assert.Contains("--answer 'dates := day-first'", output, StringComparison.Ordinal);
        var answered = await CommandLine.Run("import", file, "--data", folder.At("data"), "--answer", "dates := day-first");
        Assert.DoesNotContain("asked", answered.Out, StringComparison.Ordinal);
        Assert.Contains("row 3: questioned", answered.Out, StringComparison.Ordinal);
        Assert.Contains("Nothing was stored", error, StringComparison.Ordinal);
        Assert.Contains("no campaign", (await CommandLine.Run("readiness", "--data", folder.At("data"))).Error, StringComparison.Ordinal);

        var here = Directory.GetCurrentDirectory();
        Directory.SetCurrentDirectory(folder.Path);
        try
        {
            var (partial, text, _) = await CommandLine.Run("import", file, "--data", folder.At("data"), "--partial", "--json");
            Assert.Equal(0, partial);
            // The founding, the person, the one device that nothing is asked about with its result, and the import's own fact.
            Assert.Equal(5, (int)JsonNode.Parse(text)!["stored"]!);
        }
        finally
        {
            Directory.SetCurrentDirectory(here);
        }
        Assert.True(File.Exists(folder.At("mixed.csv.mend.csv")));
    }

    [Fact]
    public async Task A_session_of_testing_is_stated_and_listed()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("demo", "--once", "--data", folder.Path);
        Task<(int Exit, string Output, string Error)> Session(params string[] more) =>
            CommandLine.Run(["session", "QUILLMERE-26", "--data", folder.Path, .. more]);

        Assert.Contains("No session was stated.", (await Session()).Output, StringComparison.Ordinal);
        Assert.Contains("give --name, --start and --stop", (await Session("--name", "Night")).Error, StringComparison.Ordinal);
        var (refused, _, why) = await Session("--name", "Night", "--start", "2026-09-02", "--stop", "2026-09-03T01:00:00.000Z");
        Assert.Equal(2, refused);
        Assert.Contains("Start '2026-09-02'", why, StringComparison.Ordinal);
        Assert.Contains("Nothing was stored.", why, StringComparison.Ordinal);

        var (exit, output, _) = await Session(
            "--name", "Night", "--start", "2026-09-02T18:00:00.000Z", "--stop", "2026-09-03T01:00:00.000Z", "--by", "Ada");
        Assert.Equal(0, exit);
        Assert.Contains("Night: 2026-09-02T18:00:00.000Z to 2026-09-03T01:00:00.000Z", output, StringComparison.Ordinal);
        Assert.Contains("Checks of one day or of one session belong together.", output, StringComparison.Ordinal);
        var listed = Assert.Single(JsonNode.Parse((await Session("--json")).Output)!.AsArray())!;
        Assert.Equal((PersonState.IdOf("Ada"), "Night"), ((string)listed["author"]!, (string)listed["name"]!));
        Assert.Contains("QUILLMERE-26", (await CommandLine.Run("session", "NOWHERE", "--data", folder.Path)).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_person_and_the_file_of_an_import_are_facts()
    {
        using var folder = new TemporaryFolder();

        await CommandLine.Run("import", folder.Write("a.csv", Good), "--data", folder.At("data"), "--by", "Ada");

        using var store = ReadOnlyStore.Open(new DiskFiles(folder.At("data")))!;
        var import = Assert.Single(store.Register.State.Imports);
        Assert.Equal(("a.csv", 1, 2), (import.File, import.Rows, import.Facts));
        Assert.Equal("Ada", Assert.Single(store.Register.PersonIds.Select(id => store.Register.Person(id)!.Name)));
        Assert.StartsWith("import by ", store.ReadLogged(1).Door, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Reading_works_while_a_server_holds_the_folder_and_writing_names_its_address()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("import", folder.Write("a.csv", Good), "--data", folder.At("data"));
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.At("data")), TimeProvider.System));
        ((JournalStore)live.Log).Announce("http://127.0.0.1:5480");

        Assert.Equal(0, (await CommandLine.Run("verify", "--data", folder.At("data"))).Exit);
        Assert.Equal(0, (await CommandLine.Run("import", folder.At("a.csv"), "--dry-run", "--data", folder.At("data"))).Exit);
        var (exit, _, error) = await CommandLine.Run("import", folder.At("a.csv"), "--data", folder.At("data"));
        Assert.Equal(2, exit);
        Assert.Contains("http://127.0.0.1:5480", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_knows_an_old_print_and_a_damaged_journal()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("import", folder.Write("a.csv", Good), "--data", folder.At("data"));
        string head;
        using (var store = ReadOnlyStore.Open(new DiskFiles(folder.At("data")))!) head = $"3:{store.ChainAt(3)}";

        Assert.Equal(0, (await CommandLine.Run("verify", "--data", folder.At("data"), "--head", head)).Exit);
        Assert.Equal(1, (await CommandLine.Run("verify", "--data", folder.At("data"), "--head", "3:" + new string('0', 64))).Exit);
        Assert.Equal(1, (await CommandLine.Run("verify", "--data", folder.At("data"), "--head", "99:" + new string('0', 64))).Exit);
        Assert.Equal(2, (await CommandLine.Run("verify", "--data", folder.At("data"), "--head", "nonsense")).Exit);

        var journal = File.ReadAllBytes(folder.At("data/journal"));
        journal[^40] ^= 1;
        File.WriteAllBytes(folder.At("data/journal"), journal);
        var (exit, output, _) = await CommandLine.Run("verify", "--data", folder.At("data"));
        Assert.Equal(1, exit);
        Assert.Contains("damaged", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("sing")]
    [InlineData("import")]
    [InlineData("import", "nowhere.csv", "--dry-run")]
    [InlineData("readiness", "--data", "nowhere")]
    [InlineData("verify", "--data", "nowhere")]
    [InlineData("readiness", "--today", "tomorrow")]
    [InlineData("demo", "--once", "--today", "4.5.2026")]
    [InlineData("import", "x.csv", "--dates", "sometimes")]
    public async Task Bad_use_exits_with_two_and_says_why(params string[] args)
    {
        var (exit, _, error) = await CommandLine.Run(args);

        Assert.Equal(2, exit);
        Assert.NotEmpty(error);
    }

    [Fact]
    public async Task Readiness_of_an_unknown_campaign_names_those_that_are_known()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);

        Assert.Contains("QUILLMERE-26", (await CommandLine.Run("readiness", "NOWHERE", "--data", folder.Path)).Error, StringComparison.Ordinal);
        var (exit, output, _) = await CommandLine.Run("readiness", "QUILLMERE-26", "--data", folder.Path, "--today", "2026-08-03", "--json");
        Assert.Equal(1, exit);
        Assert.Equal("not-ready", (string)JsonNode.Parse(output)!["campaigns"]![0]!["verdict"]!);
    }

    [Fact]
    public async Task Columns_lists_every_header_that_is_understood() =>
        Assert.Contains("serial | Serial number | serial; serial no", (await CommandLine.Run("columns")).Out, StringComparison.Ordinal);

    [Fact]
    public async Task Tone_measures_each_channel_and_says_what_is_wrong()
    {
        using var folder = new TemporaryFolder();
        var (good, bad) = (Path.Combine(folder.Path, "good.wav"), Path.Combine(folder.Path, "bad.wav"));
        File.WriteAllBytes(good, MadeRecording.Of([MadeRecording.Tone(5, 8000, 0.1, 250), new double[40_000]], 8000, SampleFormat.Pcm16));
        File.WriteAllText(bad, "no recording at all");

        var (exit, output, error) = await CommandLine.Run("tone", good, bad, "--hz", "250", "--json");

        Assert.Equal((1, ""), (exit, error));
        var files = System.Text.Json.Nodes.JsonNode.Parse(output)!["files"]!.AsArray();
        Assert.Equal(0.1, (double)files[0]!["channels"]![0]!["rms"]!, 5);
        Assert.Equal(250, (double)files[0]!["channels"]![0]!["frequencyHz"]!, 3);
        Assert.True((bool)files[0]!["channels"]![0]!["usable"]!);
        Assert.Equal("no tone", (string)files[0]!["channels"]![1]!["reasons"]![0]!);
        Assert.Contains("no WAV, RF64 or BW64", (string)files[1]!["problem"]!, StringComparison.Ordinal);
        Assert.Contains("250.000 Hz", (await CommandLine.Run("tone", good)).Out, StringComparison.Ordinal);
        Assert.Equal(2, (await CommandLine.Run("tone", Path.Combine(folder.Path, "none.wav"))).Exit);

        await using var server = await ServerUnderTest.Open();
        using var answer = await server.Client.PostAsync("/api/tones?name=good.wav&hz=250", new ByteArrayContent(await File.ReadAllBytesAsync(good, TestContext.Current.CancellationToken)), TestContext.Current.CancellationToken);
        var view = System.Text.Json.Nodes.JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        Assert.Equal(("good.wav", 2), ((string)view["file"]!, view["channels"]!.AsArray().Count));
        using var refused = await server.Client.PostAsync("/api/tones", new ByteArrayContent("nothing"u8.ToArray()), TestContext.Current.CancellationToken);
        Assert.Equal(System.Net.HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    [Fact]
    public async Task Forecast_lists_every_device_with_what_stands_behind_it()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);

        var (exit, output, error) = await CommandLine.Run("forecast", "--data", folder.Path, "--on", "2026-09-12", "--limit-db", "0.3", "--json");

        Assert.Equal((0, ""), (exit, error));
        var devices = System.Text.Json.Nodes.JsonNode.Parse(output)!["devices"]!.AsArray();
        // 232 of the fleet, and K504 and 41085, which were at the flown campaign alone.
        Assert.Equal(234, devices.Count);
        var stepped = devices.Single(d => ((string)d!["name"]!).EndsWith("41015", StringComparison.Ordinal))!;
        Assert.Equal("newest result open", (string)stepped["findings"]![0]!["kind"]!);
        Assert.Equal((11, 76), ((int)stepped["results"]!, (int)stepped["devicesOfModel"]!));
        Assert.All(devices, d => Assert.InRange((double)d!["probability"]!, 0, 1));
        foreach (var wrong in new[] { new[] { "--on", "soon", "--limit-db", "0.3" }, ["--on", "2026-09-12", "--limit-db", "0"], ["--limit-db", "0.3"] })
            Assert.Equal(2, (await CommandLine.Run(["forecast", "--data", folder.Path, .. wrong])).Exit);
    }
}
