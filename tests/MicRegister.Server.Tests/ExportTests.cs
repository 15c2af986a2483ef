using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Server.Commands;

namespace MicRegister.Server.Tests;

/// <summary>The demo leaves as files by command and API, and comes back: here nothing changes, elsewhere it is the same.</summary>
public sealed class ExportTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static DateOnly Day { get; } = DateOnly.ParseExact(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo-inventory", "today.txt")).Trim(), "yyyy-MM-dd", null);

    [Theory]
    [InlineData("csv")]
    [InlineData("xlsx")]
    public async Task The_demo_comes_back_and_changes_nothing(string format)
    {
        using var folder = new TemporaryFolder();
        var (data, files, there) = (folder.At("data"), folder.At("files"), folder.At("there"));
        Directory.CreateDirectory(data);
        await DemoFolder.CopyTo(data);
        var today = Day.ToString("yyyy-MM-dd", null);

        var (exit, said, error) = await CommandLine.Run("export", files, "--data", data, "--format", format, "--today", today);

        Assert.True(exit == 0, error);
        string[] csv =
            ["1-settings.csv", "3-devices.csv", "4-results.csv", "5-inspections.csv", "6-campaigns.csv", "7-stations.csv", "8-kit.csv"];
        string[] tables =
            [.. Directory.GetFiles(files).Where(f => !f.EndsWith(".json", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        Assert.Equal(format == "xlsx" ? ["register.xlsx"] : csv, tables.Select(Path.GetFileName));
        Assert.Contains("4 settings, ", said, StringComparison.Ordinal);
        Assert.Contains("2 campaigns, 92 stations, 16 kit", said, StringComparison.Ordinal);
        Assert.Contains("facts of the kind import accepted", said, StringComparison.Ordinal);

        var tried = await CommandLine.Run(["import", .. tables, "--data", data, "--dry-run", "--today", today, "--json"]);
        var here = JsonNode.Parse(tried.Out)!;
        Assert.All(Reports(here), r => Assert.Equal(
            ((int)r["rows"]!, 0, 0), ((int)r["counts"]!["already there"]!, (int)r["facts"]!, r["questions"]!.AsArray().Count)));

        var (imported, text, wrong) = await CommandLine.Run(["import", .. tables, "--data", there, "--today", today, "--by", "Ada"]);
        Assert.True(imported == 0, text + wrong);
        Assert.Equal(Devices(data), Devices(there));
        var again = folder.At("again");
        Assert.Equal(0, (await CommandLine.Run("export", again, "--data", there, "--format", format, "--today", today)).Exit);
        if (format == "csv")
            Assert.All(tables, f => Assert.Equal(File.ReadAllText(f), File.ReadAllText(Path.Combine(again, Path.GetFileName(f)))));
    }

    [Fact]
    public async Task Files_of_an_earlier_export_are_written_over_only_when_told_and_none_is_left_of_it()
    {
        using var folder = new TemporaryFolder();
        var (data, files) = (folder.At("data"), folder.At("files"));
        var list = folder.Write("a.csv", "Kind,Model,Serial\nmicrophone,A-12,1\n");
        Assert.Equal(0, (await CommandLine.Run("import", list, "--data", data)).Exit);
        Assert.Equal(0, (await CommandLine.Run("export", files, "--data", data)).Exit);
        File.WriteAllText(Path.Combine(files, ExportCommand.FileOf("kit")), "of an earlier one");
        var before = File.ReadAllText(Path.Combine(files, ExportCommand.FileOf("devices")));
        await CommandLine.Run("import", folder.Write("b.csv", "Kind,Model,Serial\nmicrophone,A-12,2\n"), "--data", data);

        var (exit, _, error) = await CommandLine.Run("export", files, "--data", data);
        Assert.Equal(2, exit);
        Assert.Contains("3-devices.csv", error, StringComparison.Ordinal);
        Assert.Contains("--replace", error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(Path.Combine(files, ExportCommand.FileOf("devices"))));

        Assert.Equal(0, (await CommandLine.Run("export", files, "--data", data, "--replace")).Exit);
        Assert.NotEqual(before, File.ReadAllText(Path.Combine(files, ExportCommand.FileOf("devices"))));
        Assert.False(File.Exists(Path.Combine(files, ExportCommand.FileOf("kit"))));
        Assert.DoesNotContain(Directory.GetFiles(files), f => f.EndsWith(".part", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("--format", "ods", "--format ods: allowed are csv and xlsx.")]
    [InlineData("--data", "nowhere", "The folder nowhere holds no register.")]
    public async Task Bad_use_writes_nothing(string option, string value, string says)
    {
        using var folder = new TemporaryFolder();
        var (exit, _, error) = await CommandLine.Run("export", folder.At("files"), option, value);

        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("files")));
    }

    [Fact]
    public async Task The_api_gives_what_is_asked_for_and_says_what_stays_behind()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var devices = await server.Client.GetAsync("/api/fleet/devices.csv?kind=sound-calibrator", Cancel);
        var rows = (await devices.Content.ReadAsStringAsync(Cancel)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var calibrators = server.Live.Now.DeviceIds.Count(d => server.Live.Now.Device(d)!.Kind == "sound-calibrator");

        Assert.Equal("text/csv", devices.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("kind,maker,model,serial,", rows[0], StringComparison.Ordinal);
        Assert.Equal(calibrators + 1, rows.Length);
        Assert.All(rows[1..], r => Assert.StartsWith("sound-calibrator,", r, StringComparison.Ordinal));
        var link = devices.Headers.GetValues("Link").Single();
        var described = await server.Get(link.Split('<', '>')[1]);
        Assert.Equal("kind", (string)described["tableSchema"]!["columns"]![0]!["titles"]!);

        var workbook = await server.Client.GetByteArrayAsync("/api/fleet/register.xlsx", Cancel);
        Assert.Equal(
            ["settings", "devices", "results", "inspections", "campaigns", "stations", "kit", "columns", "provenance"], Sheets(workbook));
        Assert.Equal(
            ["campaigns", "stations", "kit", "columns", "provenance"],
            Sheets(await server.Client.GetByteArrayAsync($"/api/campaigns/{ReadDemo.C}/plan.xlsx", Cancel)));
        var report = new ImportSession(server.Live.Now, Day).Take(new MemoryStream(workbook), "register.xlsx", ImportMapping.None);
        Assert.True(report.IsGood);
        Assert.Equal((0, report.Rows), (report.Facts, report.Count(RowSort.AlreadyThere)));
        const string Beside = "it says what the other sheets hold; passed over.";
        Assert.Equal(2, report.Notices.Count(n => n.EndsWith(Beside, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("/api/fleet/devices.doc", HttpStatusCode.NotFound)]
    [InlineData("/api/fleet/nothing.csv", HttpStatusCode.NotFound)]
    [InlineData("/api/fleet/devices.csv?kind=teapot", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/api/fleet/kit.csv?campaign=NOWHERE", HttpStatusCode.NotFound)]
    [InlineData("/api/campaigns/NOWHERE/plan.xlsx", HttpStatusCode.NotFound)]
    [InlineData("/api/campaigns/QUILLMERE-26/plan.doc", HttpStatusCode.NotFound)]
    public async Task What_is_not_there_is_a_problem_document(string path, HttpStatusCode status)
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var answer = await server.Client.GetAsync(path, Cancel);

        Assert.Equal((status, "application/problem+json"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
    }

    private static IEnumerable<JsonNode> Reports(JsonNode answer) =>
        (answer as JsonArray ?? answer["files"]!.AsArray()).Select(r => r!);

    private static List<string> Sheets(byte[] workbook) =>
        SheetFile.Open(new MemoryStream(workbook), "r.xlsx", SheetLimits.Usual).Select(s => s.Name).ToList();

    private static string Devices(string data)
    {
        using var store = CommandStore.Read(data);
        var text = new StringBuilder();
        foreach (var d in store.Register.DeviceIds.Select(id => store.Register.Device(id)!))
        {
            text.AppendLine(string.Join(' ', d.Id, d.Name, d.Maker, d.Place, d.Status, string.Join(';', d.Details)));
            foreach (var c in d.Certificates.Where(c => !c.IsAnnulled))
            {
                text.AppendLine($"  {c.Day} {c.Issued with { Results = [] }} {string.Join(';', c.Issued.Results)}"
                    .Replace(c.Issued.Results.ToString()!, "", StringComparison.Ordinal));
            }
            foreach (var i in d.Inspections) text.AppendLine($"  {i.Day} {i.What}");
        }
        return text.ToString();
    }
}
