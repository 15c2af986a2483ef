using System.Text.Json.Nodes;
using MicRegister.Register.Intake;
using MicRegister.Server.Commands;

namespace MicRegister.Server.Tests;

/// <summary>
/// Answers kept with an import, by command and API; empty tables; the command asks, and always answers as it was asked to.
/// </summary>
public sealed class KeptLegendTests
{
    private const string List = "Gattung,Nr\nmicrophone,A1\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Answers_are_kept_printed_and_used_by_name()
    {
        using var folder = new TemporaryFolder();
        var (first, next, data) = (folder.Write("own.csv", List), folder.Write("next.csv", "Nr,Gattung\nA2,microphone\n"),
            folder.At("data"));
        folder.Write("own.csv.mapping", "# of the cupboard\nGattung = kind\nNr = serial\nas-of := 2026-01-01\n");
        Assert.Equal(0, (await CommandLine.Run("import", first, "--data", data)).Exit);

        var rows = JsonNode.Parse((await CommandLine.Run("imports", "--data", data, "--json")).Out)!.AsArray();
        Assert.Equal("own.csv", (string)rows[0]!["legend"]!);
        var (exit, printed, _) = await CommandLine.Run("imports", "--legend", (string)rows[0]!["id"]!, "--data", data);
        Assert.Equal((0, "# of the cupboard\nGattung = kind\nNr = serial\nas-of := 2026-01-01"),
            (exit, printed.TrimEnd().ReplaceLineEndings("\n")));

        Assert.Equal(2, (await CommandLine.Run("import", next, "--data", data)).Exit);
        var (unknown, _, why) = await CommandLine.Run("import", next, "--data", data, "--legend", "other");
        Assert.Equal(2, unknown);
        Assert.Contains("No legend is kept as 'other'; kept are own.csv.", why, StringComparison.Ordinal);
        var (used, said, _) = await CommandLine.Run("import", next, "--data", data, "--legend", "OWN.csv");
        Assert.True(used == 0, said);
        Assert.DoesNotContain("as of 2026-01-01", said, StringComparison.Ordinal); // that day was of the first list
    }

    [Fact]
    public async Task Answers_and_empty_tables_are_fetched_from_the_API()
    {
        await using var server = await ServerUnderTest.Open();
        using var list = new StringContent(List);
        (await server.Client.PostAsync("/api/imports?name=own.csv&store=true&mapping="
            + Uri.EscapeDataString("Gattung = kind\nNr = serial"), list, Cancel))
            .EnsureSuccessStatusCode();
        var id = server.Live.Now.TakenImports().Single().Fact.Id;

        Assert.Equal("Gattung = kind\nNr = serial\n", await server.Client.GetStringAsync($"/api/imports/{id}/legend", Cancel));
        Assert.Equal("Setting,Value\r\n", await server.Client.GetStringAsync("/api/imports/templates/settings.csv", Cancel));
        var book = await server.Client.GetByteArrayAsync("/api/imports/templates/kit.xlsx", Cancel);
        Assert.Equal("PK"u8.ToArray(), book[..2]);
        foreach (var missing in new[] { "templates/teapots.csv", "templates/kit.pdf", "nothing/legend" })
        {
            using var answer = await server.Client.GetAsync("/api/imports/" + missing, Cancel);
            Assert.Equal((404, "application/problem+json"), ((int)answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
        }
    }

    [Fact]
    public async Task The_command_asks_a_person_with_numbered_choices_and_takes_the_answers()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("list.csv", "Kind;Model;Serial;Date;Sensitivity\nmic;M1;7;2025-02-03;49,7\nteapot;M1;8;2025-02-04;50,1\n");
        // For the word: none of the choices, then the first, a microphone; for the unit: the first.
        var asked = new StringWriter();
        var (exit, _) = await Import(folder, new ImportDialogue(new StringReader("99\n1\n1\n1\n"), asked), file);

        Assert.Contains("'99' is none of them.", asked.ToString(), StringComparison.Ordinal);
        Assert.Contains("What does 'teapot' under 'Kind' mean?", asked.ToString(), StringComparison.Ordinal);
        Assert.Contains("  1  mV/Pa", asked.ToString(), StringComparison.Ordinal);
        Assert.True(exit == 0, asked.ToString());
        var rows = JsonNode.Parse((await CommandLine.Run("imports", "--data", folder.At("data"), "--json")).Out)!.AsArray();
        Assert.Equal("list.csv", (string)rows.Single()!["legend"]!);
    }

    [Fact]
    public async Task What_a_person_leaves_open_is_asked_once_and_nothing_is_stored()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("list.csv", "Kind,Model,Serial\nteapot,A,1\n");
        var asked = new StringWriter();
        var (exit, _) = await Import(folder, new ImportDialogue(new StringReader("\n"), asked), file);

        Assert.Equal(2, exit);
        Assert.Equal(2, asked.ToString().Split("What does 'teapot'").Length);
    }

    [Fact]
    public async Task All_files_are_reported_though_one_is_missing_and_JSON_is_JSON_whatever_happens()
    {
        using var folder = new TemporaryFolder();
        var (good, data) = (folder.Write("good.csv", "Kind,Model,Serial\nmic,A,1\n"), folder.At("data"));
        var (exit, text, _) = await CommandLine.Run("import", folder.At("missing.csv"), good, "--data", data, "--json");

        Assert.Equal(2, exit);
        var answer = JsonNode.Parse(text)!;
        Assert.Equal(("missing.csv", "good.csv"), ((string)answer["unreadable"]![0]!["file"]!, (string)answer["files"]![0]!["file"]!));
        foreach (var wrong in new[] { new[] { "--as-of", "yesterday" }, ["--mapping", "nowhere"], ["--legend", "none"] })
        {
            var (bad, said, _) = await CommandLine.Run(["import", good, "--data", data, "--json", .. wrong]);
            Assert.Equal(2, bad);
            Assert.Contains(wrong[1], (string)JsonNode.Parse(said)!["error"]!, StringComparison.Ordinal);
        }
        var (open, asks, _) = await CommandLine.Run(
            "import", folder.Write("open.csv", "Kind,Model,Serial,Plugh\nmic,A,1,foo\n"), "--data", data, "--json", "--partial");
        Assert.Equal(2, open);
        Assert.Contains("Answer its questions first", (string)JsonNode.Parse(asks)!["error"]!, StringComparison.Ordinal);
    }

    private static async Task<(int Exit, string File)> Import(TemporaryFolder folder, ImportDialogue dialogue, string file) =>
        (await ImportCommand.Make(() => dialogue).Parse([file, "--data", folder.At("data"), "--today", "2026-08-03"])
            .InvokeAsync(null, Cancel), file);
}
