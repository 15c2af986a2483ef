using System.Net.Http.Json;
using System.Text.Json.Nodes;
using MicRegister.Register.Devices;
using MicRegister.Register.Intake;

namespace MicRegister.Server.Tests;

public sealed class TakeBackApiTests
{
    private const string Fleet = "Kind,Model,Serial,Location,Date,Sensitivity [mV/Pa]\n"
        + "mic,A,1,Hall 1,2025-01-01,12.5\nmic,A,2,Hall 1,2025-03-01,12.5\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_import_is_listed_and_taken_back_as_one_act()
    {
        await using var server = await ServerUnderTest.Open();
        await Take(server, Fleet, "&store=true");
        var row = (await server.Get("/api/imports"))["items"]![0]!;
        var id = (string)row["id"]!;
        Assert.Equal(("a.csv", 6, "2025-03-01"), ((string)row["file"]!, (int)row["facts"]!, (string)row["asOf"]!));
        Assert.Null(row["takenBack"]);
        var first = DeviceIdentity.IdOf("microphone", null, "A", "1");
        await server.Send(HttpMethod.Post, $"/api/devices/{first}/places", new { place = "Van" });

        var plan = await server.Get($"/api/imports/{id}/take-back");
        Assert.Equal((3, 3, 0), ((int)plan["annuls"]!, (int)plan["stay"]!, (int)plan["gone"]!));
        Assert.Equal("Van", (string)plan["stays"]![0]!["on"]![0]!["said"]!);
        Assert.Equal(2, (int)(await server.Get("/api/devices"))["total"]!);

        var (status, _, _) = await server.Send(HttpMethod.Post, $"/api/imports/{id}/take-back", new { reason = "wrong list" });
        Assert.Equal(200, status);
        Assert.Equal(1, (int)(await server.Get("/api/devices"))["total"]!);
        var back = (await server.Get("/api/imports"))["items"]![0]!["takenBack"]!;
        Assert.Equal("the import of a.csv was taken back: wrong list", (string)back["reason"]!);

        // What stays can go only when nothing stands on it any more.
        var (again, problem, _) = await server.Send(HttpMethod.Post, $"/api/imports/{id}/take-back", new { });
        Assert.Equal((409, true), (again, ((string)problem!["detail"]!).Contains("Somebody built upon", StringComparison.Ordinal)));

        var dry = await Take(server, Fleet, "");
        Assert.Contains("was taken back before", (string)dry["outcomes"]![1]!["text"]!, StringComparison.Ordinal);
        Assert.Equal(1, (int)(await server.Get("/api/devices"))["total"]!);
        Assert.True((int)(await Take(server, Fleet, "&store=true"))["stored"]! > 0);
        Assert.Equal(2, (int)(await server.Get("/api/devices"))["total"]!);
        Assert.Equal(2, (int)(await server.Get("/api/imports"))["total"]!);
    }

    [Fact]
    public async Task What_was_taken_back_can_count_again()
    {
        await using var server = await ServerUnderTest.Open();
        await Take(server, Fleet, "&store=true");
        var id = server.Live.Now.TakenImports()[0].Fact.Id;

        Assert.Equal(409, (await server.Send(HttpMethod.Post, $"/api/imports/{id}/count-again", new { })).Status);
        await server.Send(HttpMethod.Post, $"/api/imports/{id}/take-back", new { });
        Assert.Empty(server.Live.Now.DeviceIds);
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/imports/{id}/count-again", new { })).Status);
        Assert.Equal(2, server.Live.Now.DeviceIds.Count());
    }

    [Fact]
    public async Task An_import_that_is_not_there_is_said()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var answer = await server.Client.GetAsync("/api/imports/01JD8XK3ZZ0000000000000000/take-back", Cancel);

        Assert.Equal(404, (int)answer.StatusCode);
    }

    [Fact]
    public async Task A_command_lists_imports_and_takes_them_back()
    {
        using var folder = new TemporaryFolder();
        var data = folder.At("data");
        Assert.Equal(0, (await CommandLine.Run("import", folder.Write("a.csv", Fleet), "--data", data)).Exit);

        var id = (string)JsonNode.Parse((await CommandLine.Run("imports", "--data", data, "--json")).Out)![0]!["id"]!;
        var (_, dry, _) = await CommandLine.Run("imports", "--take-back", id, "--dry-run", "--data", data);
        Assert.Contains("6 facts would not count any more, 0 would stay.", dry, StringComparison.Ordinal);
        Assert.Equal(0, (await CommandLine.Run("imports", "--take-back", id, "--reason", "wrong", "--data", data)).Exit);
        Assert.Contains("; taken back ", (await CommandLine.Run("imports", "--data", data)).Out, StringComparison.Ordinal);
        Assert.Equal(2, (await CommandLine.Run("imports", "--take-back", id, "--data", data)).Exit);
        Assert.Equal(0, (await CommandLine.Run("imports", "--count-again", id, "--data", data)).Exit);
        Assert.Equal(2, (await CommandLine.Run("imports", "--take-back", "nothing", "--data", data)).Exit);
        Assert.Equal(2, (await CommandLine.Run("imports", "--reason", "x", "--data", data)).Exit);
    }

    private static async Task<JsonNode> Take(ServerUnderTest server, string text, string query)
    {
        using var response = await server.Client.PostAsync("/api/imports?name=a.csv" + query, new StringContent(text), Cancel);
        return (await response.Content.ReadFromJsonAsync<JsonNode>(Cancel))!;
    }
}
