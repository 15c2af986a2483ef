using System.Text.Json.Nodes;
using MicRegister.Register.Intake;
using MicRegister.Register.People;
using MicRegister.Server.Commands;

namespace MicRegister.Server.Tests.Remote;

/// <summary>An import through a running server says and stores what it does on the folder.</summary>
[Collection(OfTheProcess.Name)]
public sealed class ImportThroughServerTests
{
    private const string Fleet = "Kind,Model,Serial,Location,Date,Sensitivity [mV/Pa]\n"
        + "mic,A,1,Hall 1,2025-01-01,12.5\nmic,A,2,Hall 1,2025-03-01,12.5\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static IReadOnlyList<string> Lists => [.. Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "Lists"), "*.csv")
        .Order(StringComparer.Ordinal)];

    [Fact]
    public async Task Every_kept_list_is_shown_and_answered_alike()
    {
        Assert.True(Lists.Count > 40, $"Only {Lists.Count} lists are here.");
        var server = await ServerUnderTest.Reading();
        using var folder = new TemporaryFolder();
        var asked = 0;
        foreach (var list in Lists)
        {
            async Task<string> Both(params string[] more)
            {
                string[] args = ["import", list, "--dry-run", "--today", Twin.Today, .. more];
                var there = await CommandLine.Run([.. args, "--server", server.Addresses[0]]);
                Assert.Equal(await CommandLine.Run([.. args, "--data", folder.At("none")]), there);
                return there.Out;
            }

            await Both();
            var questions = JsonNode.Parse(await Both("--json"))!["files"]![0]!["questions"]!.AsArray();
            // What is asked together has its choices part by part.
            var single = questions.SelectMany(q => q!["parts"]!.AsArray() is { Count: > 0 } parts ? parts.ToArray() : [q]);
            string[] answers = [.. single.SelectMany(q => new[] { "--answer", (string)q!["choices"]![0]!["rule"]! })];
            asked += answers.Length / 2;
            if (answers.Length > 0) Assert.NotEqual(await Both(), await Both(answers));
        }
        Assert.True(asked > 5, $"Only {asked} questions were asked.");
    }

    [Fact]
    public async Task Lists_that_come_one_after_the_other_leave_the_same_facts()
    {
        await using var twin = await Twin.Open(Duties.Own);
        foreach (var list in Lists.Where((_, i) => i % 3 == 0))
        {
            await twin.Both("import", list);
            // Again: all of it is there.
            var before = twin.Server.Live.Now.Count;
            await twin.Both("import", list, "--json");
            Assert.Equal(before, twin.Server.Live.Now.Count);
        }
        twin.HoldTheSame(atLeast: 60);
    }

    [Fact]
    public async Task The_demo_inventory_comes_as_one_act_and_its_person_answers()
    {
        await using var twin = await Twin.Open(Duties.Own);
        var inventory = Path.Combine(AppContext.BaseDirectory, "demo-inventory");
        string[] files = [.. Directory.GetFiles(inventory).Where(f => Path.GetExtension(f) is ".csv" or ".xlsx")
            .Order(StringComparer.Ordinal)];

        await twin.Both(["import", .. files, "--dry-run"]);
        Assert.Equal(0, twin.Server.Live.Now.Count);
        Assert.Equal(2, (await twin.Both(["import", .. files])).Exit); // three rows are to be mended
        await BothAside(twin, ["import", .. files]);

        twin.HoldTheSame(atLeast: 1000);
        var imports = twin.Server.Live.Now.TakenImports();
        Assert.Equal(files.Length, imports.Count);
        Assert.All(imports, i => Assert.Equal(PersonState.IdOf("own"), i.Fact.Author));
    }

    [Fact]
    public async Task Options_mean_the_same()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        var (own, next) = (twin.Write("own.csv", "Gattung,Nr\nmicrophone,A1\n"), twin.Write("next.csv", "Nr,Gattung\nA2,microphone\n"));
        var (fleet, moved) = (twin.Write("fleet.csv", Fleet), twin.Write("moved.csv", "Serial,Location\n1,Van\n"));
        var days = twin.Write("days.csv", "Kind,Model,Serial,Date,Sensitivity [mV/Pa]\nmic,B,9,03/04/2025,12.5\n");
        var rules = twin.Write("rules", "Gattung = kind\nNr = serial\n");

        Assert.Equal(2, (await twin.Both("import", own)).Exit);
        var nowhere = await twin.Both("import", own, "--mapping", twin.At("nowhere"));
        Assert.Contains("There is no file", nowhere.Error, StringComparison.Ordinal);
        Assert.Equal(0, (await twin.Both("import", own, "--mapping", rules)).Exit);
        Assert.Contains("kept are own.csv.", (await twin.Both("import", next, "--legend", "other")).Error, StringComparison.Ordinal);
        Assert.Equal(0, (await twin.Both("import", next, "--legend", "OWN.csv")).Exit);
        Assert.Equal(2, (await twin.Both("import", days)).Exit);
        Assert.Equal(0, (await twin.Both("import", days, "--dates", "day-first")).Exit);
        var two = await twin.Both("import", twin.At("none.csv"), fleet);
        Assert.Contains("not read: There is no file", two.Out, StringComparison.Ordinal);
        Assert.Contains("There is no file", (await twin.Both("import", twin.At("none.csv"))).Error, StringComparison.Ordinal);
        Assert.Equal(0, (await twin.Both("import", fleet)).Exit);
        Assert.Contains("answer with --as-of", (await twin.Both("import", moved)).Out, StringComparison.Ordinal);
        Assert.Contains("after today", (await twin.Both("import", moved, "--as-of", "2027-01-01")).Error, StringComparison.Ordinal);
        Assert.Contains("1 newer stands", (await twin.Both("import", moved, "--as-of", "2025-02-28")).Out, StringComparison.Ordinal);
        Assert.Equal(0, (await twin.Both("import", moved, "--as-of", "2025-04-01")).Exit);
        twin.HoldTheSame(atLeast: 10);
    }

    [Fact]
    public async Task Rows_to_mend_are_written_here()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        var file = twin.Write("mixed.csv", Fleet + "teapot,A,3,Hall 1,2025-03-01,12.5\n");
        twin.Write("mixed.csv.mapping", "# of the cupboard\ndates := day-first\n");

        var aside = await BothAside(twin, "import", file);

        Assert.Equal(["mixed.csv.mend.csv", "mixed.csv.mend.csv.mapping"], aside.Select(a => a.Name));
        Assert.Contains("teapot", aside[0].Text, StringComparison.Ordinal);
        Assert.Equal("# of the cupboard\ndates := day-first\n", aside[1].Text);
        twin.HoldTheSame(atLeast: 5);
    }

    [Fact]
    public async Task A_person_at_a_terminal_is_asked_the_same()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        Assert.Equal(0, (await twin.Both("import", twin.Write("fleet.csv", Fleet))).Exit);
        var list = twin.Write("list.csv", "Kind;Model;Serial;Date;Sensitivity\nmic;M1;7;2025-02-03;49,7\nteapot;M1;8;2025-02-04;50,1\n");
        var moved = twin.Write("moved.csv", "Serial,Location\n1,Van\n");
        foreach (var (file, typed) in new[] { (list, "99\n1\n1\n1\n"), (moved, "2099-01-01\n2025-04-01\n") })
        {
            List<string> asked = [];
            foreach (var way in new[] { twin.OnFolder, twin.Through() })
            {
                var words = new StringWriter();
                var dialogue = new ImportDialogue(new StringReader(typed), words);
                Assert.Equal(0, await ImportCommand.Make(() => dialogue).Parse([file, .. way]).InvokeAsync(null, Cancel));
                asked.Add(words.ToString());
            }
            Assert.NotEmpty(asked[0]);
            Assert.Equal(asked[0], asked[1]);
        }
        twin.HoldTheSame(atLeast: 9);
    }

    [Fact]
    public async Task A_lost_answer_is_told_and_the_same_command_again_stores_nothing_twice()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        var file = twin.Write("fleet.csv", Fleet);
        await using var net = await Between.HandingOn(twin.Address, lost: 2);

        var (exit, said, why) = await CommandLine.Run(["import", file, .. twin.Through(net.Address)]);
        Assert.Equal((3, ""), (exit, said));
        Assert.Contains("not known whether it was stored. Repeating the same command is safe", why, StringComparison.Ordinal);
        var stored = twin.Server.Live.Now.Count;
        Assert.Equal(9, stored); // founded, a person, two devices with a place and a result each, the import

        var (again, words, _) = await CommandLine.Run(["import", file, .. twin.Through(net.Address)]);
        Assert.Equal(0, again);
        Assert.Contains("0 facts stored.", words, StringComparison.Ordinal);
        Assert.Equal(stored, twin.Server.Live.Now.Count);
    }

    [Fact]
    public async Task What_is_lost_on_its_way_is_told_alike_and_stored_by_the_same_command()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        var file = twin.Write("fleet.csv", Fleet);
        await using var net = await Between.HandingOn(twin.Address, lost: 2, () => Task.FromResult(true));

        var (exit, text, _) = await CommandLine.Run(["import", file, "--json", .. twin.Through(net.Address)]);
        Assert.Equal(3, exit);
        Assert.Contains("not known", (string)JsonNode.Parse(text)!["error"]!, StringComparison.Ordinal);
        Assert.Equal(0, twin.Server.Live.Now.Count);
        var again = await CommandLine.Run(["import", file, .. twin.Through(net.Address)]);
        Assert.Contains("9 facts stored.", again.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_stored_is_what_was_shown()
    {
        await using var twin = await Twin.Open(Duties.Plan);
        var file = twin.Write("fleet.csv", Fleet);
        var first = twin.Write("first.csv", "Kind,Model,Serial\nmic,A,1\n");
        async Task<bool> Meanwhile()
        {
            Assert.Equal(0, (await CommandLine.Run(["import", first, .. twin.Through()])).Exit);
            return false;
        }

        await using var net = await Between.HandingOn(twin.Address, lost: 2, Meanwhile, losesAnswer: false);
        var (exit, said, why) = await CommandLine.Run(["import", file, .. twin.Through(net.Address)]);

        Assert.Equal((2, ""), (exit, said));
        Assert.Contains("The register changed meanwhile", why, StringComparison.Ordinal);
        Assert.Equal(["first.csv"], twin.Server.Live.Now.TakenImports().Select(i => i.Accepted.File));
    }

    // Both ways in a folder of their own: what is said, and the files that are written, are the same.
    private static async Task<IReadOnlyList<(string Name, string Text)>> BothAside(Twin twin, params string[] args)
    {
        var here = Directory.GetCurrentDirectory();
        List<(string Said, (string Name, string Text)[] Files)> all = [];
        foreach (var way in new[] { twin.OnFolder, twin.Through() })
        {
            using var place = new TemporaryFolder();
            Directory.SetCurrentDirectory(place.Path);
            try
            {
                var (exit, said, _) = await CommandLine.Run([.. args, "--partial", .. way]);
                Assert.True(exit == 0, said);
                all.Add((said, [.. Directory.EnumerateFiles(place.Path).Order(StringComparer.Ordinal)
                    .Select(f => (Path.GetFileName(f), File.ReadAllText(f)))]));
            }
            finally
            {
                Directory.SetCurrentDirectory(here);
            }
        }
        Assert.NotEmpty(all[0].Files);
        Assert.Equal(all[0].Said, all[1].Said);
        Assert.Equal(all[0].Files, all[1].Files);
        return all[1].Files;
    }
}
