using System.Net.Http.Json;
using System.Text.Json.Nodes;
using MicRegister.Register.Devices;
using MicRegister.Register.Intake;

namespace MicRegister.Server.Tests;

/// <summary>A list says as of which day it speaks, through whichever door it comes.</summary>
public sealed class ImportDayTests
{
    private const string Fleet = "Kind,Model,Serial,Location,Date,Sensitivity [mV/Pa]\n"
        + "mic,A,1,Hall 1,2025-01-01,12.5\nmic,A,2,Hall 1,2025-03-01,12.5\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_list_speaks_as_of_the_day_that_is_asked_for()
    {
        await using var server = await ServerUnderTest.Open();
        await Take(server, Fleet, "&store=true");
        const string Moved = "Serial,Location\n1,Van\n";

        var asked = await Take(server, Moved, "&store=true");
        Assert.Equal((true, 0, false), ((bool)asked["asksAsOf"]!, (int)asked["stored"]!, (bool)asked["isGood"]!));
        var older = await Take(server, Moved, "&store=true&asOf=2025-02-28");
        Assert.Equal((1, 0), ((int)older["newer"]!, (int)older["stored"]!));
        Assert.Contains("newer: place Hall 1 as of 2025-03-01 stands", (string)older["outcomes"]![0]!["text"]!, StringComparison.Ordinal);
        Assert.Equal(2, (int)(await Take(server, Moved, "&store=true&asOf=2025-04-01"))["stored"]!);
        var device = server.Live.Now.Device(DeviceIdentity.IdOf("microphone", null, "A", "1"))!;
        Assert.Equal(("Van", new DateOnly(2025, 4, 1)), (device.Place, device.Places[^1].Day));
        Assert.Equal(new DateOnly(2025, 4, 1), server.Live.Now.TakenImports()[^1].Accepted.AsOf);
    }

    [Fact]
    public async Task A_command_asks_as_of_which_day_a_list_speaks()
    {
        using var folder = new TemporaryFolder();
        var (fleet, moved, data) = (folder.Write("a.csv", Fleet), folder.Write("b.csv", "Serial,Location\n1,Van\n"), folder.At("data"));
        Assert.Equal(0, (await CommandLine.Run("import", fleet, "--data", data)).Exit);

        var (asked, text, _) = await CommandLine.Run("import", moved, "--data", data);
        Assert.Equal(2, asked);
        Assert.Contains("answer with --as-of", text, StringComparison.Ordinal);
        var (old, left, _) = await CommandLine.Run("import", moved, "--data", data, "--as-of", "2025-02-28");
        Assert.Equal(0, old);
        Assert.Contains("row 2: newer stands: Microphone 1: newer: place Hall 1 as of 2025-03-01 stands", left, StringComparison.Ordinal);
        Assert.Equal(2, (await CommandLine.Run("import", moved, "--data", data, "--as-of", "yesterday")).Exit);
    }

    private static async Task<JsonNode> Take(ServerUnderTest server, string text, string query)
    {
        using var response = await server.Client.PostAsync("/api/imports?name=a.csv" + query, new StringContent(text), Cancel);
        return (await response.Content.ReadFromJsonAsync<JsonNode>(Cancel))!;
    }
}
