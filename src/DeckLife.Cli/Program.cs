using System.Text;
using DeckLife.Cli;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
return CommandShell.Run(args, Console.Out, Console.Error);
