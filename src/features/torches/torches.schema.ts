import { z } from 'zod';
import { BenchSchema } from '../calculations/index.ts';

export const TorchParams = z.strictObject({ id: z.uuid() });

const torchFields = {
  name: z.string().trim().min(1).max(60),
  torch: BenchSchema.shape.torch.describe('A preset, or numbers of its own.'),
};

export const NewTorch = z.strictObject(torchFields);

export const TorchChange = z.strictObject(torchFields).partial();

export const TorchReply = z.object({ id: z.string(), ...torchFields, version: z.number().int(), createdAt: z.string() });
